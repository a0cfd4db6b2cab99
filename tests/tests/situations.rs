//! The situations of the trade as houses: each verdict, width, share and flag that `fixtures/situations.json` expects.

use joistwise_core::footing;
use joistwise_core::geometry::{Spot, apart};
use joistwise_core::plan::{Member, Plan, PlanFile, Side, Wall};
use joistwise_core::trace::{BeamTrace, Node, Origin, Reason, RibKind, Role, Trace, trace};
use joistwise_core::units::{Pounds, Psf};
use joistwise_tests::{flags_of, flags_of_finding, house, node, read, verdict, wall};
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

/// A named wall, beam or post; an outside wall of the lowest level also by where it stands.
fn named(plan: &Plan, name: &str) -> Node {
    let by: fn(&Wall) -> i32 = match name {
        "south" => |it| -it.a.y.get() - it.b.y.get(),
        "north" => |it| it.a.y.get() + it.b.y.get(),
        "west" => |it| -it.a.x.get() - it.b.x.get(),
        "east" => |it| it.a.x.get() + it.b.x.get(),
        _ => return node(plan, name),
    };
    let walls = plan.levels().first().expect("a level").walls.iter().filter(|it| it.side == Side::Outside);
    Node::Wall(walls.max_by_key(|it| by(it)).expect("an outside wall").id)
}

/// The flags of a named wall or post.
fn flags(plan: &Plan, trace: &Trace, name: &str) -> Vec<&'static str> {
    let cautions = match named(plan, name) {
        Node::Wall(id) => &trace.wall(id).expect("traced").cautions,
        Node::Post(id) => &trace.post(id).expect("traced").cautions,
        other => panic!("{other:?} has no flags"),
    };
    cautions.iter().flat_map(flags_of).copied().collect()
}

fn beam<'t>(plan: &Plan, trace: &'t Trace, name: &str) -> &'t BeamTrace {
    let Node::Beam(id) = node(plan, name) else { panic!("{name} is no beam") };
    trace.beam(id).expect("traced")
}

/// The widest of a beam's feeds of one origin, those that run beside each other summed.
fn beam_width(beam: &BeamTrace, origin: Origin) -> f64 {
    let feeds = || beam.feeds.iter().filter(|feed| feed.origin == origin);
    let at = |place: f64| -> f64 {
        feeds().filter(|feed| feed.start.0 <= place && place <= feed.end.0).map(|feed| feed.width().0).sum()
    };
    feeds().map(|feed| at((feed.start.0 + feed.end.0) / 2.0)).fold(0.0, f64::max)
}

fn expect_beam(id: &str, plan: &Plan, trace: &Trace, want: &Value) {
    let beam = beam(plan, trace, want["name"].as_str().expect("a name"));
    let tolerance = number(&want["tolerance"]);
    let floor = beam_width(beam, Origin::Floor);
    for (key, want) in want.as_object().expect("an object") {
        let what = format!("{id} {key}");
        match key.as_str() {
            "name" | "tolerance" => {}
            "floor_trib_ft" => close(&what, floor, number(want), 1e-9),
            "ceiling_trib_ft" => close(&what, beam_width(beam, Origin::Ceiling), number(want), 1e-9),
            "roof_trib_ft" => close(&what, beam_width(beam, Origin::Roof), number(want), 1e-9),
            "span_ft" => close(&what, beam.longest_span.0, number(want), tolerance),
            "area_ft2" => close(&what, floor * beam.length.0, number(want), 1e-9),
            "each_end_ft2" => close(&what, floor * beam.length.0 / 2.0, number(want), 1e-9),
            "post_area_ft2" => {
                // Half of the beam to the support on either side, by the width that feeds it.
                for (name, want) in want.as_object().expect("posts") {
                    let around = beam.rests.windows(3).find_map(|three| match three {
                        [before, at, after] if at.on == node(plan, name) => Some((after.at - before.at).0),
                        _ => None,
                    });
                    let run = around.expect("rests on it, between two others") / 2.0;
                    close(&format!("{what} {name}"), run * floor, number(want), tolerance);
                }
            }
            other => panic!("{id}: nobody checks {other}"),
        }
    }
}

fn expect_ridge_beam(id: &str, trace: &Trace, want: &Value) {
    let mut ribs = trace.roofs.iter().flat_map(|roof| &roof.ribs).filter(|rib| rib.kind == RibKind::Ridge);
    let ridge = ribs.next().unwrap_or_else(|| panic!("{id}: no ridge beam"));
    let width = ridge.feeds.iter().map(|feed| feed.width().0).fold(0.0, f64::max);
    close(&format!("{id} ridge ft"), ridge.length().0, number(&want["length_ft"]), 1e-9);
    close(&format!("{id} ridge trib ft"), width, number(&want["roof_trib_ft"]), 1e-9);
    close(&format!("{id} ridge ft2"), width * ridge.length().0, number(&want["area_ft2"]), 1e-9);
    close(&format!("{id} each end ft2"), width * ridge.length().0 / 2.0, number(&want["each_end_ft2"]), 1e-9);
    let [first, last] = ridge.rests.as_slice() else { panic!("{id}: it rests in two places") };
    close(&format!("{id} each end lb"), first.weights.all().0, last.weights.all().0, 1e-6);
    let mut ends = [ridge.a, ridge.b];
    ends.sort_by(|a, b| a.x.0.total_cmp(&b.x.0));
    for (point, end) in want["points"].as_array().expect("points").iter().zip(ends) {
        let [x, y] = point.as_array().expect("a place").as_slice() else { panic!("{id}: two lengths") };
        close(&format!("{id} end x ft"), end.x.0, number(x), 1e-9);
        close(&format!("{id} end y ft"), end.y.0, number(y), 1e-9);
    }
}

#[expect(clippy::disallowed_methods, reason = "an angle to a hundredth of a degree, natively only")]
fn expect_strut(id: &str, trace: &Trace, want: &Value) {
    let rib = trace.roofs.iter().flat_map(|roof| &roof.ribs).find(|rib| rib.purlin.is_some()).expect("a purlin");
    let [_, strut, next, ..] = rib.struts.as_slice() else { panic!("{id}: struts between its ends") };
    let tolerance = number(&want["tolerance"]);
    let (rise, run) = (strut.rise.0, strut.run.0);
    close(&format!("{id} run on plan ft"), apart(strut.head, strut.foot).0, run, 1e-9);
    for (key, want) in want.as_object().expect("an object") {
        let got = match key.as_str() {
            "tolerance" => continue,
            "rise_ft" => rise,
            "run_ft" => run,
            "angle_deg" => rise.atan2(run).to_degrees(),
            "length_ft" => (rise * rise + run * run).sqrt(),
            // What leans on the purlin from one strut half way to the next on either side.
            "area_ft2" => {
                let apart = apart(next.head, strut.head).0;
                rib.feeds.iter().map(|feed| feed.width().0).fold(0.0, f64::max) * apart
            }
            other => panic!("{id}: nobody checks {other}"),
        };
        close(&format!("{id} strut {key}"), got, number(want), tolerance);
    }
}

/// P / q, and the side of a square that has it, to the half foot that forms are built in.
fn expect_pad(id: &str, want: &Value) {
    let area = footing::area(Pounds(number(&want["reaction_lb"])), Psf(number(&want["soil_psf"])));
    close(&format!("{id} pad ft2"), area.0, number(&want["area_ft2"]), number(&want["tolerance"]));
    let side = (footing::side(area).0 / 6.0 - 1e-9).ceil() / 2.0;
    close(&format!("{id} pad ft"), side, number(&want["side_ft"]), 1e-9);
    close(&format!("{id} pad given ft2"), side * side, number(&want["given_ft2"]), 1e-9);
}

fn inertia(size: &Value) -> f64 {
    let member: Member = size.as_str().expect("a size").parse().expect("a size");
    let depth = member.depth.inches();
    member.width().expect("sawn").inches() * depth * depth * depth / 12.0
}

/// What the roof built last puts on: the applied dead load with it, less the same without it.
fn expect_second_roof(id: &str, plan: &Plan, trace: &Trace, want: &Value) {
    let mut file = PlanFile::from(plan);
    file.levels.last_mut().expect("a level").roofs.pop().expect("a roof");
    let without = joistwise_core::trace::trace(&Plan::try_from(file).expect("sound"));
    let more = (trace.ledger.applied.dead - without.ledger.applied.dead).0;
    close(&format!("{id} second roof lb"), more, number(&want["dead_lb"]), 1e-6);
}

fn finding_names(trace: &Trace) -> Vec<String> {
    let name = |problem| {
        let value = serde_json::to_value(problem).expect("JSON");
        value.get("problem").and_then(Value::as_str).expect("a tag").to_owned()
    };
    let mut names: Vec<String> = trace.path_gaps().map(|gap| name(&gap.problem)).collect();
    names.sort();
    names
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
            "beam" => expect_beam(id, &plan, &trace, want),
            "ridge_beam" => expect_ridge_beam(id, &trace, want),
            "strut" => expect_strut(id, &trace, want),
            "pad" => expect_pad(id, want),
            "second_roof" => expect_second_roof(id, &plan, &trace, want),
            "ridge" => {
                assert_eq!(want, "not a beam");
                let ribs = || trace.roofs.iter().flat_map(|roof| &roof.ribs);
                assert!(ribs().all(|rib| rib.kind != RibKind::Ridge), "{id}: a ridge board is no beam");
            }
            "stiffness_ratio" => {
                let ratio = (inertia(&want["of"]) + inertia(&want["with"])) / inertia(&want["of"]);
                close(&format!("{id} stiffness"), ratio, number(&want["ratio"]), number(&want["tolerance"]));
            }
            "moment_ratio" => {
                // Under the same load a foot the moment of a simple span goes with its square.
                let name = want["beam"].as_str().expect("a name");
                let before = house(want["before"].as_str().expect("a file"));
                let before = beam(&before, &joistwise_core::trace::trace(&before), name).longest_span.0;
                let ratio = beam(&plan, &trace, name).longest_span.0 / before;
                close(&format!("{id} moment"), ratio * ratio, number(&want["ratio"]), 1e-3);
            }
            "stands_on" => {
                for (upper, lower) in want.as_object().expect("names") {
                    let (from, to) = (node(&plan, upper), node(&plan, lower.as_str().expect("a name")));
                    assert!(
                        trace.links.iter().any(|it| (it.from, it.to) == (from, to)),
                        "{id}: {upper} not on {lower}"
                    );
                }
            }
            "roof_by_share" => {
                let carrier = node(&plan, want["wall"].as_str().expect("a wall"));
                let from = names(&want["from"]).into_iter().map(|name| {
                    let links = || trace.links.iter().filter(|it| it.from == node(&plan, name));
                    let gables = [named(&plan, "east"), named(&plan, "west")];
                    let sum: f64 = links().filter(|it| !gables.contains(&it.to)).map(|it| it.weights.all().0).sum();
                    let here: f64 = links().filter(|it| it.to == carrier).map(|it| it.weights.all().0).sum();
                    wall(&plan, &trace, name).tributary_width(Origin::Roof).0 * here / sum
                });
                close(&format!("{id} roof ft"), from.sum(), number(&want["roof_trib_ft"]), number(&want["tolerance"]));
            }
            "post_offset" => {
                let (Node::Post(post), Node::Beam(of)) = (
                    node(&plan, want["post"].as_str().expect("a post")),
                    node(&plan, want["beam"].as_str().expect("a beam")),
                ) else {
                    panic!("{id}: a post and a beam")
                };
                let at = plan.levels().iter().flat_map(|it| &it.posts).find(|it| it.id == post).expect("drawn").at;
                let line = plan.levels().iter().flat_map(|it| &it.beams).find(|it| it.id == of).expect("drawn").a;
                close(&format!("{id} offset in"), (at.y - line.y).inches(), number(&want["offset_in"]), 1.0 / 16.0);
            }
            "bearing" => {
                let member: Member = want["member"].as_str().expect("a size").parse().expect("a size");
                let one = member.width().expect("sawn").inches() * member.depth.inches();
                let area = f64::from(member.plies) * one;
                close(&format!("{id} in2"), area, number(&want["area_in2"]), 1e-9);
                let psi = number(&want["reaction_lb"]) / area;
                close(&format!("{id} psi"), psi, number(&want["psi"]), number(&want["tolerance"]));
            }
            "packs" => {
                for (name, post) in want.as_object().expect("walls") {
                    let Node::Post(pack) = node(&plan, post.as_str().expect("a post")) else { panic!("no post") };
                    let marks = |it: &Reason| matches!(it, Reason::StudPackIn { post, .. } if *post == pack);
                    let held = wall(&plan, &trace, name).stretches.iter().find(|it| it.reasons.iter().any(marks));
                    assert_eq!(held.map(|it| it.role), Some(Role::HoldsPoint), "{id} {name}");
                }
            }
            "gaps" => assert_eq!(finding_names(&trace), names(want), "{id}: path gaps"),
            "house_flags" | "not_house_flags" => {
                let got: Vec<&str> =
                    trace.findings.iter().flat_map(|it| flags_of_finding(&it.problem)).copied().collect();
                for want in names(want) {
                    assert_eq!(got.contains(&want), key == "house_flags", "{id}: {want} in {got:?}");
                }
            }
            "share" => {
                let from = node(&plan, want["of"].as_str().expect("a name"));
                let to: Vec<Node> = names(&want["to"]).into_iter().map(|name| node(&plan, name)).collect();
                let sum = |to: Option<&[Node]>| -> f64 {
                    let links = trace.links.iter().filter(|link| link.from == from);
                    let wanted = links.filter(|link| to.is_none_or(|to| to.contains(&link.to)));
                    wanted.map(|link| link.weights.all().0).sum()
                };
                // Where a share is among some, the strips at the ends of a deck that lie on the gable walls are left out.
                let among = want.get("among").map(names).unwrap_or_default();
                let among: Vec<Node> = among.into_iter().map(|name| named(&plan, name)).collect();
                let share = sum(Some(&to)) / sum((!among.is_empty()).then_some(&among));
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
    s06_a_ridge_board_over_a_flat_ceiling_carries_nothing = "S06"
    s06_joists_out_under_a_ridge_board_leave_the_thrust_loose = "S06 joists out"
    s06_a_ridge_beam_brings_84_square_feet_to_each_end = "S06 vaulted"
    s07_struts_bring_the_roof_to_two_inside_walls = "S07"
    s07_struts_at_27_degrees_are_too_flat = "S07 too flat"
    s07_struts_on_joists_are_found = "S07 on joists"
    s08_the_attic_that_became_a_store = "S08"
    s09_posts_on_a_bare_slab_need_pads = "S09"
    s09_a_bearing_wall_on_a_slab = "S09 before"
    s09_a_thickened_slab_is_a_question_for_the_engineer = "S09 thickened"
    s10_balloon_frame_studs_run_past_the_floor = "S10"
    s11_girder_on_five_posts = "S11"
    s11_one_post_out_makes_four_times_the_moment = "S11 case 1"
    s11_three_posts_out_is_beyond_common_beams = "S11 case 2"
    s11_new_posts_need_new_pads = "S11 new posts"
    s12a_posts_over_the_girder_between_its_posts = "S12a"
    s12a_joists_of_22_ft_are_held_up_first = "S12a now"
    s12b_two_roofs_on_one_beam_on_a_cantilever = "S12b"
    s13_a_beam_below_is_no_proof = "S13"
    s13_joists_that_turn_end_on_the_wall = "S13 joists turn"
    s14_low_walls_bring_roof_to_the_floor_joists = "S14"
    s14_low_walls_with_a_gap_carry_nothing = "S14 gap"
    s15_the_new_post_lands_14_in_beside_the_girder = "S15"
    s16_two_hall_walls_one_girder = "S16"
    s17_a_stud_pack_means_a_point_load = "S17"
}
