//! The bodies of the fuzz targets on bytes of a fixed seed. `FUZZ_RUNS` and `FUZZ_SEED` set how many and which; each body gets a
//! share by how long one run of it takes.

use std::time::Duration;

use joistwise_tests::bodies::BODIES;

#[expect(clippy::disallowed_methods, reason = "the ban is for the core; a run that hangs is found by a clock")]
fn now() -> std::time::Instant {
    std::time::Instant::now()
}

fn asked(name: &str, usual: u64) -> u64 {
    std::env::var(name).ok().and_then(|text| text.parse().ok()).unwrap_or(usual)
}

/// The next of a row of numbers without a pattern (splitmix64).
fn next(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mut z = *state;
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

fn run(name: &str, runs: u64) {
    let (_, body) = *BODIES.iter().find(|it| it.0 == name).expect("a body");
    let mut state = asked("FUZZ_SEED", 13);
    let mut longest = (Duration::ZERO, 0);
    for number in 0..runs {
        let seed = state;
        let length = next(&mut state) % 300;
        let bytes: Vec<u8> = (0..length).flat_map(|_| next(&mut state).to_le_bytes()).collect();
        let began = now();
        if std::panic::catch_unwind(|| body(&bytes)).is_err() {
            panic!("run {number} of {name}: FUZZ_SEED={seed} FUZZ_RUNS=1");
        }
        longest = longest.max((began.elapsed(), seed));
    }
    println!("{name}: {runs} runs, the longest {:?} (FUZZ_SEED={})", longest.0, longest.1);
}

#[test]
fn any_file_is_refused_in_a_line_or_followed_through() {
    run("file", asked("FUZZ_RUNS", 150));
}

#[test]
fn any_link_is_refused_in_a_line_or_followed_through() {
    run("link", asked("FUZZ_RUNS", 300));
}

#[test]
fn any_length_that_is_read_is_printed_and_read_again() {
    run("tape", asked("FUZZ_RUNS", 100_000));
}

#[test]
fn any_changes_are_refused_in_a_line_or_leave_a_house_that_is_followed_through() {
    run("edits", asked("FUZZ_RUNS", 150));
}

#[test]
fn any_session_ends_in_a_house_that_can_be_drawn_and_kept() {
    run("session", asked("FUZZ_RUNS", 150));
}
