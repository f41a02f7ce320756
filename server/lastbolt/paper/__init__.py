"""Pages that people print: handover sheet and release record, drawn from records; never what they say."""
