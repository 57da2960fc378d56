"""What can be asked for over HTTP, a module for each part of the page."""
