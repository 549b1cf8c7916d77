"""What stands around every page: the head, the stream of stations, notices."""
