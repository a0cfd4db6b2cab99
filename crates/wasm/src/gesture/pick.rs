//! Choosing parts, and moving the chosen one by its body or its ends.
//!
//! Only what is chosen already can be moved: a slip of a finger moves the sheet, not the house.

use joistwise_core::geometry::Spot;
use joistwise_core::ids::ElementId;
use joistwise_core::plan::{Edit, Element, FootingShape, Plan, Point, Region};
use joistwise_core::snap::{Landing, nearest_step};
use joistwise_core::units::{Feet, Ticks};

use super::{Button, Desk, Effect, Gesture, Input, Pointer, aim};
use crate::scene::{Handle, deck_at, handles, part_at};
use crate::view::Screen;

/// What a press has hold of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grip {
    /// The sheet, or a part that is not chosen yet.
    Part(Option<ElementId>),
    /// The body of the chosen part.
    Body(ElementId),
    /// An end of the chosen wall or beam.
    End(Handle),
}

const INCH: Ticks = Ticks::from_sixteenths(16);

/// A step while nothing is pressed.
pub(super) fn begin(input: &Input, desk: &Desk<'_>) -> (Gesture, Effect) {
    match input {
        Input::Move(pointer) => {
            (Gesture::Idle, Effect::Hover(part_at(desk.plan, desk.view, pointer.at, pointer.by.reach())))
        }
        Input::Leave => (Gesture::Idle, Effect::Hover(None)),
        Input::Down(pointer) if pointer.button == Button::First => {
            (Gesture::Pressed { pointer: *pointer, grip: grip(pointer, desk) }, Effect::None)
        }
        _ => (Gesture::Idle, Effect::None),
    }
}

fn grip(pointer: &Pointer, desk: &Desk<'_>) -> Grip {
    let reach = pointer.by.reach() + 4.0;
    let away = |at: Screen| between(at, pointer.at);
    let ends = handles(desk.plan, desk.view).into_iter().filter(|(at, _)| away(*at) <= reach);
    if let Some((_, handle)) = ends.min_by(|a, b| away(a.0).total_cmp(&away(b.0))) {
        return Grip::End(handle);
    }
    match part_at(desk.plan, desk.view, pointer.at, pointer.by.reach()) {
        Some(part) if desk.view.chosen == Some(part) && anchor(desk.plan, part).is_some() => Grip::Body(part),
        part => Grip::Part(part),
    }
}

/// A step while something is pressed or moved.
pub(super) fn step(it: Gesture, input: &Input, desk: &Desk<'_>) -> (Gesture, Effect) {
    match (it, input) {
        (Gesture::Pressed { pointer, grip }, Input::Move(now)) if now.id == pointer.id => {
            if between(pointer.at, now.at) <= pointer.by.slip() {
                return (Gesture::Pressed { pointer, grip }, Effect::None);
            }
            match grip {
                Grip::Part(_) => {
                    let effect = Effect::Look { from: pointer.at, to: now.at, factor: 1.0 };
                    (Gesture::Panning { pointer: *now, then: Box::default() }, effect)
                }
                grip => moved(pointer, grip, now, desk),
            }
        }
        (Gesture::Pressed { pointer, grip }, Input::Up(now)) if now.id == pointer.id => {
            let part = match grip {
                Grip::Part(part) => part,
                Grip::Body(part) => Some(part),
                Grip::End(handle) => Some(handle.element),
            };
            (Gesture::Idle, tapped(part, now.at, desk))
        }
        (Gesture::Moving { pointer, grip, .. }, Input::Move(now)) if now.id == pointer.id => {
            moved(pointer, grip, now, desk)
        }
        (Gesture::Moving { pointer, edit, .. }, Input::Up(now)) if now.id == pointer.id => {
            (Gesture::Idle, edit.map_or(Effect::Redraw, Effect::Commit))
        }
        (_, Input::Cancel(_)) => (Gesture::Idle, Effect::Redraw),
        (it, _) => (it, Effect::None),
    }
}

/// A tap on a part chooses it; on bare joists it puts a weight down.
pub(super) fn tapped(part: Option<ElementId>, at: Screen, desk: &Desk<'_>) -> Effect {
    let bare = if part.is_none() { deck_at(desk.plan, desk.view, at) } else { None };
    bare.map_or(Effect::Choose(part), Effect::PutDown)
}

fn moved(pointer: Pointer, grip: Grip, now: &Pointer, desk: &Desk<'_>) -> (Gesture, Effect) {
    let (edit, landing) = match grip {
        Grip::End(handle) => end_to(handle, now, desk),
        Grip::Body(part) => body_by(part, &pointer, now, desk),
        Grip::Part(_) => (None, None),
    };
    let effect = edit.clone().map_or(Effect::Redraw, Effect::Preview);
    (Gesture::Moving { pointer, grip, edit, landing }, effect)
}

fn end_to(handle: Handle, now: &Pointer, desk: &Desk<'_>) -> (Option<Edit>, Option<Landing>) {
    let spot = desk.view.view.plan_from_screen(now.at);
    let landing = aim::at_spot(spot, now.by.reach(), &[], Some(handle.element), desk);
    let edit = landing.map(|landing| Edit::MoveEnd { element: handle.element, end: handle.end, to: landing.at });
    (edit, landing)
}

fn body_by(part: ElementId, pointer: &Pointer, now: &Pointer, desk: &Desk<'_>) -> (Option<Edit>, Option<Landing>) {
    let view = &desk.view.view;
    let (from, to) = (view.plan_from_screen(pointer.at), view.plan_from_screen(now.at));
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    if let ElementId::Opening(_) = part {
        let step = |length: Feet| Ticks::from_decimal_feet(length).map(|length| nearest_step(length, INCH));
        let edit = step(dx).zip(step(dy)).map(|(dx, dy)| Edit::Move { element: part, dx, dy });
        return (edit, None);
    }
    let Some(anchor) = anchor(desk.plan, part) else {
        return (None, None);
    };
    let there = Spot { x: anchor.x.feet() + dx, y: anchor.y.feet() + dy };
    let landing = aim::at_spot(there, now.by.reach(), &[], Some(part), desk);
    let edit = landing.map(|landing| {
        let (dx, dy) = (landing.at.x - anchor.x, landing.at.y - anchor.y);
        Edit::Move { element: part, dx, dy }
    });
    (edit, landing)
}

/// The point of a part that lands when it is moved; none for what has no place of its own.
pub(super) fn anchor(plan: &Plan, part: ElementId) -> Option<Point> {
    match plan.element(part)? {
        Element::Wall(wall) => Some(wall.a),
        Element::Opening(opening) => plan.wall(opening.wall).map(|(_, wall)| wall.a),
        Element::Post(post) => Some(post.at),
        Element::Beam(beam) => Some(beam.a),
        Element::Footing(footing) => Some(match footing.shape {
            FootingShape::Pad { at, .. } => at,
            FootingShape::Strip { a, .. } => a,
        }),
        Element::Field(field) => corner(&field.region),
        Element::FloorOpening(opening) => opening.corners.first().copied(),
        Element::Roof(roof) => corner(&roof.region),
        Element::Purlin(purlin) => Some(purlin.a),
        Element::Thing(thing) => thing.corners.first().copied(),
        Element::Observation(seen) => Some(seen.at),
        Element::JoistCut(cut) => Some(cut.at),
        Element::Board(board) => Some(board.a),
    }
}

fn corner(region: &Region) -> Option<Point> {
    match region {
        Region::Outline => None,
        Region::Corners(corners) => corners.first().copied(),
    }
}

/// How far apart two places of the canvas are, in CSS pixels.
pub(super) fn between(a: Screen, b: Screen) -> f64 {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    (dx * dx + dy * dy).sqrt()
}
