"""What is told of deliveries, orders, lots, photos and what is kept by hand. None is "not known", never zero."""
