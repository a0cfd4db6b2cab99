//! Set-up, serve, test, reference.

fn main() {}
