"""When each piece is begun and ready: molds, people and working hours in half days; dates that hold."""
