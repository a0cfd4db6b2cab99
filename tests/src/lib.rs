//! Loads a fixture and explains a trace, for the tests beside.
