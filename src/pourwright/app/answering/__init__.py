"""Cheap answers for the page: what is dear is kept between two requests, the rest is reckoned anew."""
