//! What a wall's card says of how it is known: how sure, what was looked at, what was taken for granted, what was ruled out.

use serde::Serialize;

use crate::geometry::{self, Position};
use crate::ids::{ElementId, WallId};
use crate::observe::{About, Weight, proof};
use crate::plan::{
    Edit, Element, Grade, Joints, JoistField, Level, Observation, Plan, Roof, RoofFrame, Saw, Top, Wall,
};
use crate::readings::{Certainty, Judgement, Unknown, field_at, middle, open_ends, over_wall, roof_at, wall_of};
use crate::tape::Tape;
use crate::units::Feet;
use crate::words::{self, Words, capital};

/// A post this near to what was seen below an end is what was seen.
const UNDER_END: Feet = Feet(1.0);

/// How a wall's role is known.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Evidence {
    /// How sure, stretch by stretch.
    pub certainty: Vec<(Certainty, String)>,
    /// What was looked at: seen or measured.
    pub looked: Vec<String>,
    /// What was told, and what proves nothing.
    pub heard: Vec<String>,
    /// What was told of the joists and roofs over it, part by part: whoever saw it says so with one tap.
    pub told: Vec<(ElementId, String)>,
    /// What was taken for granted.
    pub assumed: Vec<String>,
    /// What was ruled out, and by which check.
    pub ruled_out: Vec<String>,
    /// What does not fit together.
    pub disagree: Vec<String>,
    /// The line load over all that fits, where it differs.
    pub range: String,
}

/// How the role of one wall is known; none for a wall that is not in the plan.
#[must_use]
pub fn evidence(plan: &Plan, judgement: &Judgement, id: WallId, tape: Tape) -> Option<Evidence> {
    let (level, wall) = plan.wall(id)?;
    let words = Words::new(plan, tape);
    let stretches: Vec<_> = judgement.of_wall(id).collect();
    let certainty = stretches.iter().map(|it| {
        let text = words.certainty(it);
        if stretches.len() < 2 {
            return (it.certainty, capital(&text));
        }
        let run = format!("{} to {}", words.length(it.start), words.length(it.end));
        (it.certainty, format!("{run}, {}: {text}", words::role(it.role())))
    });
    let about = |unknown: Unknown| match unknown {
        Unknown::Wall(of) | Unknown::Struts(of) => of == id,
        Unknown::Direction(field) | Unknown::Size(field) | Unknown::Turn(field) => {
            over_wall(level, wall).iter().any(|it| it.id == field)
        }
        Unknown::Overhead(of) | Unknown::RoofOver(of) => of == level.id,
        Unknown::Frame(roof) | Unknown::Ceiling(roof) => level.roofs.iter().any(|it| it.id == roof),
        Unknown::Under(_) => stretches.iter().any(|it| it.hangs_on.contains(&unknown)),
    };
    let ruled_out = judgement
        .ruled_out
        .iter()
        .filter(|it| matches!(it.unknown, Unknown::Wall(_) | Unknown::Struts(_)) && about(it.unknown));
    let disagree = judgement.contradictions.iter().filter(|it| it.about.iter().any(|unknown| about(*unknown)));
    let range = judgement.ranges.iter().find(|it| it.wall == id).and_then(|it| words.range(it));
    let mut all = Evidence {
        certainty: certainty.collect(),
        ruled_out: ruled_out.map(|it| words.ruled_out(it)).collect(),
        disagree: disagree.map(|it| words.contradiction(it)).collect(),
        range: range.unwrap_or_default(),
        told: told_of(plan, level, wall, tape),
        assumed: assumed(level, wall),
        ..Evidence::default()
    };
    for seen in level.observations.iter().filter(|seen| speaks_of(level, wall, seen)) {
        let proof = proof(&seen.saw);
        let said = words.saw(&seen.saw);
        let day = if seen.day.is_empty() { String::new() } else { format!(", {}", seen.day) };
        if seen.known <= Grade::Seen && (proof.weight != Weight::Nothing || tells_of_an_end(plan, level, seen)) {
            all.looked.push(format!("{said} ({}{day})", words::grade(seen.known)));
        } else {
            let weighs = if seen.known <= Grade::Seen { "proves nothing" } else { words::grade(seen.known) };
            all.heard.push(format!("{said} ({weighs}{day})"));
        }
    }
    Some(all)
}

/// Whether something in line below was seen under the end of a beam: of that it is proof.
fn tells_of_an_end(plan: &Plan, level: &Level, seen: &Observation) -> bool {
    let post = || level.posts.iter().any(|post| geometry::length(post.at, seen.at) <= UNDER_END);
    let open = || open_ends(plan).iter().any(|end| end.is_spoken_of(level, seen));
    matches!(seen.saw, Saw::InLine { .. }) && (post() || open())
}

/// Whether an observation has to do with a wall: it is at it, or of the deck or roof over its middle.
fn speaks_of(level: &Level, wall: &Wall, seen: &Observation) -> bool {
    let covers =
        |corners: &[crate::plan::Point]| geometry::position(corners, middle(wall.a, wall.b)) != Position::Outside;
    match proof(&seen.saw).about {
        About::Wall => wall_of(level, seen.at) == Some(wall.id),
        About::House => true,
        About::Joists | About::Roof => level.outlines().iter().any(|it| covers(it)),
    }
}

/// What was told of the joists and roofs over a wall.
fn told_of(plan: &Plan, level: &Level, wall: &Wall, tape: Tape) -> Vec<(ElementId, String)> {
    let fields = over_wall(level, wall).into_iter().map(|field| ElementId::Field(field.id));
    let over = |roof: &&crate::plan::Roof| {
        let middle = middle(wall.a, wall.b);
        level.polygons(&roof.region).iter().any(|it| geometry::position(it, middle) != Position::Outside)
    };
    let roofs = level.roofs.iter().filter(over).map(|roof| ElementId::Roof(roof.id));
    fields.chain(roofs).filter_map(|part| Some((part, told(plan, part, tape)?))).collect()
}

/// What was told of a part and nobody says that he saw, as one sentence; none for other parts.
#[must_use]
pub fn told(plan: &Plan, part: ElementId, tape: Tape) -> Option<String> {
    let level = plan.level_of(part)?;
    match plan.element(part)? {
        Element::Field(field) if field.known == Grade::Told && !saw_way(level, &field) => {
            let lie = match field.joints {
                Joints::Lap => " and lap",
                Joints::RunThrough => " and run through",
                Joints::NotSeen => "",
            };
            Some(format!("That the joists run {}{lie} was told.", words::way(field.along)))
        }
        Element::Roof(roof)
            if roof.known == Grade::Told && roof.frame != RoofFrame::NotSeen && !saw_frame(level, &roof) =>
        {
            let frame = Words::new(plan, tape).name(part);
            Some(format!("How {} is framed was told.", frame.to_lowercase()))
        }
        _ => None,
    }
}

/// The plan with a part seen that was told; none for what was not.
#[must_use]
pub fn saw_it(plan: &Plan, part: ElementId) -> Option<Edit> {
    let known = Grade::Seen;
    match plan.element(part)? {
        Element::Field(field) if field.known == Grade::Told => {
            Some(Edit::Change(Element::Field(JoistField { known, ..field })))
        }
        Element::Roof(roof) if roof.known == Grade::Told => Some(Edit::Change(Element::Roof(Roof { known, ..roof }))),
        _ => None,
    }
}

/// Whether something was seen, or measured.
fn saw(level: &Level, what: impl Fn(&Observation) -> bool) -> bool {
    level.observations.iter().any(|it| it.known <= Grade::Seen && what(it))
}

fn saw_way(level: &Level, field: &JoistField) -> bool {
    let run = |it: &Observation| {
        matches!(it.saw, Saw::JoistsRun { .. }) && field_at(level, it.at).is_some_and(|over| over.id == field.id)
    };
    saw(level, run)
}

fn saw_frame(level: &Level, roof: &Roof) -> bool {
    let framed = |it: &Observation| {
        let frame = matches!(it.saw, Saw::RidgeBoard | Saw::RidgeBeam | Saw::TrussPlates | Saw::TrussGussets);
        frame && roof_at(level, it.at).is_some_and(|over| over.id == roof.id)
    };
    saw(level, framed)
}

fn assumed(level: &Level, wall: &Wall) -> Vec<String> {
    let mut all = Vec::new();
    for field in over_wall(level, wall) {
        // What was told stands by itself, to be seen with one tap.
        if field.known > Grade::Seen && field.known != Grade::Told && !saw_way(level, field) {
            let way = words::way(field.along);
            all.push(format!("That the joists over it run {way} is {}.", words::grade(field.known)));
        }
        let looked = field.joints != Joints::NotSeen || wall.joints != Joints::NotSeen || wall.top != Top::Tight;
        if !looked {
            all.push("Nobody looked whether they lap over it or run through; traced as if they lap.".to_owned());
        }
        if !field.member.is_seen() {
            all.push("Their size is not known.".to_owned());
        }
    }
    for roof in &level.roofs {
        if saw_frame(level, roof) {
            continue;
        }
        if roof.frame == RoofFrame::NotSeen {
            all.push("How the roof is framed is not seen.".to_owned());
        } else if roof.known > Grade::Told {
            all.push(format!("How the roof is framed is {}.", words::grade(roof.known)));
        }
    }
    if level.fields.is_empty() && level.roofs.is_empty() {
        all.push("Nobody has said what is overhead.".to_owned());
    }
    all.dedup();
    all
}
