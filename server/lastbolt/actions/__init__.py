"""The thin shell: load, call the core, save."""
