//! The situations of the trade as houses: each verdict, width, share and flag that `fixtures/situations.json` expects.

use joistwise_core::geometry::Spot;
use joistwise_core::plan::Plan;
use joistwise_core::trace::{Node, Origin, Trace, trace};
use joistwise_tests::{flag, house, node, read, verdict, wall};
use serde_json::Value;

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn close(what: &str, got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{what}: {got}, expected {want}");
}

fn expect_wall(id: &str, plan: &Plan, trace: &Trace, name: &str, want: &Value) {
    let wall_trace = wall(plan, trace, name);
    for (key, want) in want.as_object().expect("an object") {
        let what = format!("{id} {name} {key}");
        let width = |origin| wall_trace.tributary_width(origin).0;
        match key.as_str() {
            "role" => {
                assert_eq!(verdict(wall_trace), want.as_str().expect("a role"), "{what}: {:?}", wall_trace.stretches)
            }
            "ceiling_trib_ft" => close(&what, width(Origin::Ceiling), number(want), 1e-9),
            "floor_trib_ft" => close(&what, width(Origin::Floor), number(want), 1e-9),
            "roof_trib_ft" => close(&what, width(Origin::Roof), number(want), 1e-9),
            "wall_above" => {
                let upper = node(plan, want.as_str().expect("a name"));
                let links = trace.links.iter().filter(|link| link.from == upper && link.weights.all().0 > 1.0);
                let beams: Vec<Node> = links.map(|link| link.to).collect();
                let own = Node::Wall(wall_trace.wall);
                let through = trace.links.iter().any(|link| beams.contains(&link.from) && link.to == own);
                assert!(beams.contains(&own) || through, "{what}: {upper:?} does not come down on it");
            }
            other => panic!("{id}: nobody checks {other}"),
        }
    }
}

/// The feeds of a wall over a run of it: area by the trade's widths, and the share of each end of an opening there.
fn expect_opening(id: &str, plan: &Plan, trace: &Trace, want: &Value) {
    let wall_trace = wall(plan, trace, want["wall"].as_str().expect("a wall"));
    let line = plan.wall(wall_trace.wall).expect("drawn").1;
    let along = |key_x: &str, key_y: &str| {
        let start = Spot::from(line.a);
        want.get(key_x).map_or_else(|| number(&want[key_y]) - start.y.0, |x| number(x) - start.x.0)
    };
    let (from, to) = (along("from_x_ft", "from_y_ft"), along("to_x_ft", "to_y_ft"));
    close(&format!("{id} opening ft"), to - from, number(&want["opening_ft"]), 1e-9);
    let area: f64 = wall_trace
        .feeds
        .iter()
        .map(|feed| feed.width().0 * (feed.end.0.min(to) - feed.start.0.max(from)).max(0.0))
        .sum();
    close(&format!("{id} area ft2"), area, number(&want["area_ft2"]), 1e-9);
    close(&format!("{id} each end ft2"), area / 2.0, number(&want["each_end_ft2"]), 1e-9);
}

fn flags(plan: &Plan, trace: &Trace, name: &str) -> Vec<&'static str> {
    match node(plan, name) {
        Node::Wall(id) => trace.wall(id).expect("traced").cautions.iter().map(flag).collect(),
        Node::Post(id) => trace.post(id).expect("traced").cautions.iter().map(flag).collect(),
        other => panic!("{other:?} has no flags"),
    }
}

fn names(value: &Value) -> Vec<&str> {
    value.as_array().expect("a list").iter().map(|it| it.as_str().expect("a name")).collect()
}

fn check(situation: &Value) {
    let id = situation["id"].as_str().expect("an id");
    let plan = house(situation["house"].as_str().expect("a file"));
    let trace = trace(&plan);
    assert!(trace.ledger.worst_share_off() < 1e-9, "{id}: ledger off by {}", trace.ledger.worst_share_off());
    for (key, want) in situation["expect"].as_object().expect("an object") {
        match key.as_str() {
            "walls" => {
                for (name, want) in want.as_object().expect("walls") {
                    expect_wall(id, &plan, &trace, name, want);
                }
            }
            "posts" => {
                for (name, _) in want.as_object().expect("posts") {
                    let Node::Post(post) = node(&plan, name) else { panic!("{name} is no post") };
                    assert!(trace.post(post).expect("traced").top.all().0 > 100.0, "{id}: {name} holds nothing");
                }
            }
            "header" => {
                let header = trace.headers.first().expect("a header");
                close(&format!("{id} header ft2"), header.area.0, number(&want["area_ft2"]), 1e-9);
                close(&format!("{id} header end ft2"), header.area.0 / 2.0, number(&want["each_end_ft2"]), 1e-9);
                if let Some(y) = want.get("points_added_to_trimmer_at_y_ft") {
                    close(&format!("{id} header y ft"), header.a.y.0, number(y), 1e-9);
                    assert_eq!((header.under_a, header.under_b), (None, None), "{id}");
                    assert!(header.at_a.all().0 > 50.0 && header.at_b.all().0 > 50.0, "{id}: {header:?}");
                }
            }
            "opening" => expect_opening(id, &plan, &trace, want),
            "share" => {
                let from = node(&plan, want["of"].as_str().expect("a name"));
                let to: Vec<Node> = names(&want["to"]).into_iter().map(|name| node(&plan, name)).collect();
                let sum = |to: Option<&[Node]>| -> f64 {
                    let links = trace.links.iter().filter(|link| link.from == from);
                    let wanted = links.filter(|link| to.is_none_or(|to| to.contains(&link.to)));
                    wanted.map(|link| link.weights.all().0).sum()
                };
                let share = sum(Some(&to)) / sum(None);
                close(&format!("{id} share"), share, number(&want["share"]), number(&want["tolerance"]));
            }
            "flags" => {
                for (name, want) in want.as_object().expect("flags") {
                    let got = flags(&plan, &trace, name);
                    for want in names(want) {
                        assert!(got.contains(&want), "{id} {name}: no {want} in {got:?}");
                    }
                }
            }
            "not_flags" => {
                for (name, unwanted) in want.as_object().expect("flags") {
                    let got = flags(&plan, &trace, name);
                    for unwanted in names(unwanted) {
                        assert!(!got.contains(&unwanted), "{id} {name}: {unwanted} in {got:?}");
                    }
                }
            }
            other => panic!("{id}: nobody checks {other}"),
        }
    }
}

macro_rules! situations { ($($test:ident = $id:literal)*) => {
    $(#[test]
    fn $test() {
        let all: Value = serde_json::from_str(&read("situations.json")).expect("JSON");
        check(all["situations"].as_array().expect("a list").iter().find(|it| it["id"] == $id).expect("there"));
    })*

    #[test]
    fn every_situation_of_the_file_is_checked() {
        let all: Value = serde_json::from_str(&read("situations.json")).expect("JSON");
        let ids: Vec<&str> = all["situations"].as_array().expect("a list").iter().map(|it| it["id"].as_str().expect("an id")).collect();
        assert_eq!(ids, [$($id),*]);
    }
} }

situations! {
    s01_gable_ranch_with_one_wall_down_the_middle = "S01"
    s02a_upper_wall_8_in_off_on_sawn_joists = "S02A"
    s02b_upper_wall_24_in_off_on_sawn_joists = "S02B"
    s02c_upper_wall_8_in_off_on_i_joists = "S02C"
    s03_trusses_with_metal_plates_over_a_wall = "S03"
    s03_site_built_trusses_need_a_look = "S03 gussets"
    s03_a_cut_web_needs_a_look = "S03 web cut"
    s04_wall_along_most_joists_holds_the_girder = "S04"
    s05_studs_beside_the_basement_stair = "S05"
    s05_trimmers_take_the_header_where_no_post_stands = "S05 no post"
    s13_a_beam_below_is_no_proof = "S13"
    s13_joists_that_turn_end_on_the_wall = "S13 joists turn"
    s16_two_hall_walls_one_girder = "S16"
}
