"""Edge: who may do what, PINs, devices that are signed in, and what is held until a lead has looked at it."""
