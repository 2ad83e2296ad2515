"""Pictures of fields as they are."""
