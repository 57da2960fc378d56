"""Many pieces from few molds: how many a month, by which day, and what is bought for them; reads no files."""
