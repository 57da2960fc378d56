"""The page of orders: their dates, and the shopping list whose ticks book the stock."""
