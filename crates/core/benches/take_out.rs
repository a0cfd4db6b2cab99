//! How long one whole study takes: 12 ft out of the centre wall of a two-storey house.

use joistwise_core::draft::draft;
use joistwise_core::plan::{Joints, LevelKind, Plan, Set, Use, Way};
use joistwise_core::take_out::{Stretch, needs, of_posts, take_out, under_joists};
use joistwise_core::trace::trace;
use joistwise_core::units::Feet;

fn main() {
    divan::main();
}

fn house() -> Plan {
    let mut house = draft().kind(LevelKind::Basement).outside(36, 24).joists(Way::Y, Joints::Lap);
    house = house.beam("Girder", (0, 12), (36, 12), Joints::Lap);
    for x in [6, 12, 18, 24, 30] {
        house = house.post("", (x, 12)).pad((x, 12), 3);
    }
    house = house.up().outside(36, 24).inside("C", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap);
    house = house.up().outside(36, 24).inside("U", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap);
    house.used_as(Use::AtticBare).roof(Way::X, 1).snow(25.0).done()
}

fn stretch(plan: &Plan) -> Option<Stretch> {
    plan.wall_named("C").map(|wall| Stretch::of(wall.id, Feet(38.0 / 3.0), Feet(74.0 / 3.0)))
}

#[divan::bench]
fn twelve_ft_under_a_dropped_beam(bencher: divan::Bencher<'_, '_>) {
    let plan = house();
    let stretch = stretch(&plan);
    bencher.bench(|| stretch.as_ref().and_then(|stretch| take_out(&plan, stretch)));
}

#[divan::bench]
fn twelve_ft_under_a_flush_beam_over_three_posts(bencher: divan::Bencher<'_, '_>) {
    let plan = house();
    let stretch = stretch(&plan).map(|it| Stretch { set: Set::Flush, posts_between: vec![Feet(18.5)], ..it });
    bencher.bench(|| stretch.as_ref().and_then(|stretch| take_out(&plan, stretch)));
}

#[divan::bench]
fn one_post_of_five_out_from_under_the_girder(bencher: divan::Bencher<'_, '_>) {
    let plan = house();
    let post = plan.levels().first().and_then(|level| level.posts.get(2)).map(|it| it.id);
    let stretch = post.and_then(|post| of_posts(&plan, &trace(&plan), &[post]));
    bencher.bench(|| stretch.as_ref().and_then(|stretch| take_out(&plan, stretch)));
}

#[divan::bench]
fn a_beam_under_the_joists_of_the_lower_storey(bencher: divan::Bencher<'_, '_>) {
    let plan = house();
    let field = plan.levels().get(1).and_then(|level| level.fields.first()).map(|it| it.id);
    let stretch = field.and_then(|field| under_joists(&plan, &trace(&plan), field, None));
    bencher.bench(|| stretch.as_ref().and_then(|stretch| take_out(&plan, stretch)));
}

#[divan::bench]
fn whether_the_wall_is_needed(bencher: divan::Bencher<'_, '_>) {
    let plan = house();
    let wall = plan.wall_named("C").map(|wall| wall.id);
    bencher.bench(|| wall.and_then(|wall| needs(&plan, wall)));
}
