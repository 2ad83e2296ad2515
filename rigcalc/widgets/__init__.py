"""What every app shares: model and form, fields and controls, panels, the page and its look. No app lives here."""
