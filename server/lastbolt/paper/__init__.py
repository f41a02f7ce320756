"""Pages that people print: handover sheet and release record, drawn from plain records; never what they say."""
