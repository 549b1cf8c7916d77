"""A campaign of channel tests on disk: logger files in, raw data and readings kept, all of it out again."""
