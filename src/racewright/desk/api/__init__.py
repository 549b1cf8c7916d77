"""The JSON twin of the desk under /api, with its OpenAPI description."""
