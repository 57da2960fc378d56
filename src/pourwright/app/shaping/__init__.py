"""From what the maker brings, a file, written sizes or a tape, to one body."""
