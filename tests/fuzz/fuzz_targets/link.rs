//! The body `link` of `tests/src/bodies.rs` for a fuzzer.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| joistwise_tests::bodies::link(bytes));
