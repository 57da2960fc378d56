"""Many pieces: dates for a list of orders, pieces a month, and what is bought for them."""
