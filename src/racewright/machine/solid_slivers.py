"""Triangles thinner than single precision holds: merged or turned over, with the solid kept closed."""

from __future__ import annotations

from collections import defaultdict

import numpy as np

from racewright.machine.solid import Floats, Ints, Solid, doubled_areas

HELD = 2.0**-22
"""Least height of a triangle over the largest coordinate. Rounding to single precision moves a place by at most
half a step of 2^-23 of that coordinate along each axis, so a corner and the edge across from it come nearer by less
than sqrt(3) * 2^-23: what is higher keeps its area and its side at any scale."""


REACH = 16.0
"""Longest edge that is drawn together for want of a better way, over the least height. Own choice."""


def heights(points: Floats, corners: Ints) -> Floats:
    """Least height of each triangle, shape (k,) [length]."""
    longest = np.max([np.linalg.norm(points[corners[:, k]] - points[corners[:, k - 1]], axis=1) for k in range(3)], 0)
    doubled = np.linalg.norm(doubled_areas(points, corners), axis=1)
    return np.asarray(doubled / np.where(longest > 0.0, longest, 1.0), dtype=np.float64)


def without_slivers(solid: Solid) -> Solid:
    """The solid with its too thin triangles taken out, as far as it stays closed and keeps its handles.

    An edge shorter than the least height is drawn together into one place; of a triangle whose edges are all longer
    the longest edge is exchanged for the one across, or else its shortest one, up to `REACH`, drawn together.

    Parameters
    ----------
    solid : Solid
        Closed by `joined`.
    """
    net = _Net(solid)
    while net.round():
        pass
    return Solid(solid.name, net.points, net.normals, net.faces, net.joined)


class _Net:
    """Tables of a solid while they change, and the triangles around the places that take part in a round."""

    def __init__(self, solid: Solid) -> None:
        self.points, self.normals = solid.points.copy(), solid.normals.copy()
        self.faces, self.joined = solid.faces.copy(), solid.joined.copy()
        self.least = HELD * float(np.abs(solid.points).max())
        self.high = heights(self.points, self.joined[self.faces])

    def round(self) -> bool:
        """Each thin triangle once, thinnest first, no place twice; False when nothing could be done."""
        self.corners = self.joined[self.faces]
        thin = np.flatnonzero(self.high < self.least)
        part = np.zeros(len(self.points), dtype=bool)
        part[self.corners[thin]] = True
        self.around: dict[int, list[int]] = defaultdict(list)
        for face in np.flatnonzero(part[self.corners].any(axis=1)).tolist():
            for place in self.corners[face].tolist():
                self.around[place].append(face)
        self.touched: set[int] = set()
        self.kept = np.ones(len(self.faces), dtype=bool)
        done = [self._mended(int(face)) for face in thin[np.argsort(self.high[thin], kind="stable")]]
        self.faces, self.high = self.faces[self.kept], self.high[self.kept]
        part[:] = False
        part[list(self.touched)] = True
        corners = self.joined[self.faces]
        changed = np.flatnonzero(part[corners].any(axis=1))
        self.high[changed] = heights(self.points, corners[changed])
        return any(done)

    def _mended(self, face: int) -> bool:
        places = self.corners[face]
        lengths = np.linalg.norm(self.points[places] - self.points[np.roll(places, -1)], axis=1)
        k = int(lengths.argmin())
        short, ends = lengths[k] / self.least, (int(places[k]), int(places[k - 2]))
        if short >= 1.0 and self._exchanged(face, int(lengths.argmax())):
            return True
        return bool(short < REACH) and (self._merged(*ends) or self._merged(*ends[::-1]))

    def _free(self, places: set[int]) -> bool:
        """True, and the places taken for this round, where none of them was."""
        if places & self.touched:
            return False
        self.touched |= places
        return True

    def _neighbours(self, place: int) -> set[int]:
        return {int(one) for face in self.around[place] for one in self.corners[face]} - {place}

    def _merged(self, stays: int, goes: int) -> bool:
        """One place instead of two; only two triangles may lie between them, else the surface would touch itself."""
        near, far = self._neighbours(stays), self._neighbours(goes)
        gone = [face for face in self.around[goes] if stays in self.corners[face]]
        if len(near & far) != 2 or self._turns(stays, goes) or not self._free(near | far):
            return False
        moved = self.joined == goes
        self.joined[moved] = stays
        self.points[moved] = self.points[stays]
        self.kept[gone] = False
        return True

    def _turns(self, stays: int, goes: int) -> bool:
        """True where a triangle that is not thin itself would look the other way."""
        old = self.corners[[face for face in self.around[goes] if stays not in self.corners[face]]]
        old = old[heights(self.points, old) >= self.least]
        new = np.where(old == goes, stays, old)
        before, after = doubled_areas(self.points, old), doubled_areas(self.points, new)
        return bool(np.any(np.einsum("ij,ij->i", before, after) <= 0.0))

    def _exchanged(self, face: int, k: int) -> bool:
        """The edge after corner k of a triangle runs across the two triangles beside it instead."""
        a, b, c = (int(one) for one in np.roll(self.corners[face], -k))
        beside = [one for one in self.around[a] if one != face and b in self.corners[one]]
        if len(beside) != 1:
            return False
        other = beside[0]
        turn = int(np.flatnonzero(self.corners[other] == b)[0])
        from_b, from_a, tip = (int(one) for one in np.roll(self.faces[other], -turn))
        d = int(self.joined[tip])
        new = np.array([[a, d, c], [d, b, c]])
        if (
            d in self._neighbours(c)
            or not self._better(self.corners[[face, other]], new)
            or not self._free({a, b, c, d})
        ):
            return False
        own_a, own_b, own_c = (int(one) for one in np.roll(self.faces[face], -k))
        smooth = own_a == from_a and own_b == from_b
        point = own_c if smooth else self._added(c, from_a, from_b)
        self.faces[face], self.faces[other] = (from_a, tip, point), (tip, from_b, point)
        return True

    def _better(self, old: Ints, new: Ints) -> bool:
        """True where the thinner of two triangles becomes higher and both look to the same side as before."""
        side = doubled_areas(self.points, old).sum(axis=0)
        same = bool(np.all(doubled_areas(self.points, new) @ side > 0.0))
        return same and float(heights(self.points, new).min()) > float(heights(self.points, old).min())

    def _added(self, place: int, start: int, end: int) -> int:
        """Number of a new point at a place near an edge, with the normal of the surface the edge's ends lie on."""
        along = self.points[end] - self.points[start]
        share = float(np.clip((self.points[place] - self.points[start]) @ along / (along @ along), 0.0, 1.0))
        normal = (1.0 - share) * self.normals[start] + share * self.normals[end]
        self.points = np.vstack([self.points, self.points[place]])
        self.normals = np.vstack([self.normals, normal / np.linalg.norm(normal)])
        self.joined = np.append(self.joined, place)
        return len(self.points) - 1
