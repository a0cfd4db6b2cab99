//! The command `joistwise`: the same core on a house file.

fn main() {}
