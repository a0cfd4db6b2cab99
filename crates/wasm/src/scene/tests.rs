//! What a carpenter would look for on the sheet.
