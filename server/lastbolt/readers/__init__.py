"""Edge: other processes. Pictures from outside are decoded there, with little memory and little time."""
