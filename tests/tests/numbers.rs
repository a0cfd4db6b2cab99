//! What is printed of the houses of the fixtures holds no figure that is no number.

use joistwise_core::geometry;
use joistwise_core::take_out::{Stretch, of_posts, take_out};
use joistwise_core::trace::trace;
use joistwise_core::units::Feet;
use joistwise_tests::bodies::is_all_numbers;
use joistwise_tests::{house, houses};

/// "inf plf" stood in the study of a pier of `s12b`: joists that end free past the line have no far support.
#[test]
fn no_study_of_any_wall_or_post_of_any_house_prints_a_figure_that_is_no_number() {
    let mut studies = 0;
    for name in houses() {
        let plan = house(&name);
        let traced = trace(&plan);
        let walls = plan.levels().iter().flat_map(|level| &level.walls);
        let walls = walls.map(|wall| Stretch::of(wall.id, Feet::ZERO, geometry::length(wall.a, wall.b)).likely(&plan));
        let posts = plan.levels().iter().flat_map(|level| &level.posts);
        let posts = posts.filter_map(|post| of_posts(&plan, &traced, &[post.id]));
        for study in walls.chain(posts).filter_map(|stretch| take_out(&plan, &stretch)) {
            let told = (&study.lands, &study.loses, &study.beams, &study.ends, &study.shoring, &study.steps);
            is_all_numbers(&serde_json::to_string(&told).expect("JSON"));
            studies += 1;
        }
    }
    assert!(studies > 300, "{studies} studies");
}
