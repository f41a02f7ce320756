"""Pictures of places on the invented engine, computed: shapes as a relief, lit from the side."""
