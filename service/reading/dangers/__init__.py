"""Who may be hurt: dangers told, denied, feared, or only sounding like one. Errs to safety."""
