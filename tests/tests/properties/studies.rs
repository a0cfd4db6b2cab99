//! What holds for a study of any stretch: nothing is lost, nothing named fails, the other houses close.

use joistwise_core::loads::{Kind, Weights};
use joistwise_core::plan::{Bracing, Plan, PlanFile};
use joistwise_core::take_out::{Block, Held, Holds, NoProp, OnProps, Stretch, Study, Unheld, take_out};
use joistwise_core::trace::trace;
use joistwise_core::units::Feet;

/// Within a part in a billion of all that is on the house.
fn same(what: &str, one: Weights, other: Weights, whole: f64) -> Result<(), String> {
    for kind in Kind::ALL {
        let off = (one.get(kind) - other.get(kind)).0.abs();
        if off.is_nan() || off > 1e-9 * whole.max(1.0) {
            return Err(format!("{what}, {kind:?}: {:?} lb is not {:?} lb", one.get(kind), other.get(kind)));
        }
    }
    Ok(())
}

/// The house with bracing answered for: without that an outside wall is not sized.
fn answered(plan: &Plan) -> Plan {
    let mut file = PlanFile::from(plan);
    let walls = file.levels.iter_mut().flat_map(|level| &mut level.walls);
    walls.for_each(|wall| wall.bracing = Bracing::EngineerAnswered);
    Plan::try_from(file).unwrap_or_else(|_| plan.clone())
}

pub(super) fn holds(plan: &Plan, stretch: &Stretch) -> Result<(), String> {
    let plan = &answered(plan);
    let Some(study) = take_out(plan, stretch) else { return Ok(()) };
    let whole = trace(plan).ledger.applied.all().0;
    same("ends of a simple beam", study.lands.ends.at_from + study.lands.ends.at_to, study.lands.all, whole)?;
    let sources = study.lands.from.iter().fold(Weights::default(), |sum, it| sum + it.1);
    same("what brings it", sources, study.lands.all, whole)?;
    let runs = study.lands.figures.iter().filter_map(|it| it.label.strip_prefix("Line load, ")?.split_once(" to "));
    if let Some((at, _)) = runs.clone().find(|run| run.0 == run.1) {
        return Err(format!("a line load of no length is told at {at}"));
    }
    let supports = study.beams.supports.iter().fold(Weights::default(), |sum, it| sum + it.weights);
    same("supports of the beam", supports, study.beams.all, whole)?;
    let own = study.beams.choices.first().map_or(0.0, |it| it.weight.0);
    let with_beam = study.beams.supports.iter().map(|it| it.with_beam.dead.0).sum::<f64>();
    if (with_beam - study.beams.all.dead.0 - own).abs() > 1e-9 * whole.max(1.0) {
        return Err(format!("{with_beam} lb of dead load at the supports, {own} lb of it the beam"));
    }
    for house in [&study.without, &study.proposed] {
        let off = trace(house).ledger.worst_share_off();
        if off.is_nan() || off > 1e-9 {
            return Err(format!("the ledger of one of its houses is off by {off}"));
        }
    }
    for choice in &study.beams.choices {
        let ratio = choice.governs.ratio;
        if ratio.is_nan() || ratio > 1.0 + 1e-9 || !choice.checked.passes() || choice.seat.is_some_and(|it| it.0 > 6.0)
        {
            return Err(format!("{} is named and fails: {ratio}", choice.name));
        }
    }
    for post in study.ends.posts.iter().flat_map(|it| &it.choices) {
        if post.ratio.is_nan() || post.ratio > 1.0 {
            return Err(format!("{} is named and fails: {}", post.name, post.ratio));
        }
    }
    for prop in study.shoring.lines.iter().filter_map(|it| it.prop) {
        let header = prop.header.is_none_or(|it| it.1.passes());
        if !prop.column.passes() || prop.plate.is_nan() || prop.plate > 1.0 || prop.apart.0 > 4.0 || !header {
            return Err(format!("a prop is named and fails: {prop:?}"));
        }
    }
    for pressed in &study.down.pressed {
        let shares = [pressed.column_before, pressed.column_after].into_iter().flatten();
        if shares.clone().any(|it| !it.ratio.is_finite() || !it.carries.0.is_finite()) {
            return Err(format!("a post has no figure: {pressed:?}"));
        }
    }
    if study.refusals.iter().any(|it| it.blocks && !it.sentence.is_empty())
        && study.shoring.lines.iter().any(|it| it.prop.is_some())
    {
        return Err("a prop is named though all sizes are refused".to_owned());
    }
    if study.refusals.iter().any(|it| it.blocks) && !study.beams.choices.is_empty() {
        return Err("a size is named though it is refused".to_owned());
    }
    shoring_is_whole(&study)?;
    let text = serde_json::to_string(&study).map_err(|error| error.to_string())?;
    if text.contains("NaN") { Err("a figure is no number".to_owned()) } else { Ok(()) }
}

/// Props, what the far ends then have more than now, and what else is held: all that lands on a whole line, by kind. At a corner the
/// trace gives a wall half of a joist that its prop holds whole: there more may be held, never less. What is less by under a pound
/// is no part; what is not followed is blocked.
fn all_is_held(study: &Study, whole: f64) -> Result<(), String> {
    // Where something blocks, nothing is propped, sized or cut.
    if study.refusals.iter().any(|it| it.blocks) {
        return Ok(());
    }
    let lines = study.shoring.lines.iter().fold(Weights::default(), |sum, it| sum + it.holds + it.beyond);
    let held = study.shoring.held.iter().fold(lines, |sum, it| match it.by {
        Holds::OwnProp(own) => sum + own.holds + own.beyond,
        _ => sum + it.weights,
    });
    let lost = (study.lands.all - held).all().0;
    if lost > 2.0 || lost.is_nan() {
        return Err(format!("{held:?} lb held of {:?}, {lost} lb on nothing, of {whole}", study.lands.all));
    }
    let follows = |it: &Held| !matches!(it.by, Holds::Nothing(Unheld::NotFollowed));
    let blocks = study.shoring.blocked.iter().any(|it| matches!(it.about, Block::NotHeld { .. }));
    if study.shoring.held.iter().all(follows) || blocks { Ok(()) } else { Err("a part is not followed".to_owned()) }
}

fn shoring_is_whole(study: &Study) -> Result<(), String> {
    let shoring = &study.shoring;
    for line in shoring.lines.iter().filter(|it| it.skip.is_none()) {
        let clear = line.far.0 >= 0.0 && !matches!(line.on_props, OnProps::Fails | OnProps::NotKnown);
        let clear = clear && line.no_way.is_none() && line.no_prop.is_none_or(|it| it == NoProp::Refused);
        if !clear && shoring.blocked.is_empty() {
            return Err(format!("a line of props does not hold and nothing is blocked: {line:?}"));
        }
        if line.far.0 < 0.0 && line.prop.is_some() {
            return Err(format!("a prop is named under joists that tip: {line:?}"));
        }
    }
    let nothing = shoring.held.iter().find(|it| matches!(it.by, Holds::Nothing(_)));
    if nothing.is_some() && shoring.blocked.is_empty() {
        return Err(format!("nothing holds {nothing:?} and nothing is blocked"));
    }
    Ok(())
}

/// A study of the whole of a line holds all that lands on it meanwhile, each pound once.
pub(super) fn holds_all_meanwhile(plan: &Plan, stretch: &Stretch) -> Result<(), String> {
    let all = Stretch { from: Feet::ZERO, to: Feet(f64::INFINITY), posts_between: Vec::new(), ..stretch.clone() };
    let plan = &answered(plan);
    let Some(study) = take_out(plan, &all) else { return Ok(()) };
    all_is_held(&study, trace(plan).ledger.applied.all().0)
}

fn lightest(study: &Study) -> Option<f64> {
    study.beams.choices.first().map(|it| it.weight.0)
}

/// A longer stretch with the same posts never has a lighter beam.
pub(super) fn grows(plan: &Plan, stretch: &Stretch, longer: Feet) -> Result<(), String> {
    let long = Stretch { to: stretch.to + longer, ..stretch.clone() };
    let (Some(one), Some(other)) = (take_out(plan, stretch), take_out(plan, &long)) else { return Ok(()) };
    match (lightest(&one), lightest(&other)) {
        (Some(one), Some(other)) if other < one - 1e-9 => Err(format!("{other} lb over more than {one} lb")),
        _ => Ok(()),
    }
}
