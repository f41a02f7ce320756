"""The invented week at Tarnhaven boatyard, told as journal entries."""
