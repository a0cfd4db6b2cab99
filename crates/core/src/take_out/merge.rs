//! What several houses of one study say together: of everything the worst.

use super::beam::{Beams, Support};
use super::case::Case;
use super::down::{Down, Pack, PostDown, Pressed, Reloaded};
use super::ends::{Ends, Face, Posts};
use super::member::Checked;
use super::plans::Proposed;
use super::refusals::{About, Refusal};
use super::shoring::{PropLine, Shoring};
use crate::units::{Feet, Pounds};

/// All that any house refuses or asks; that nothing lands only where it does in none.
pub(super) fn refusals(all: Vec<Vec<Refusal>>) -> Vec<Refusal> {
    let nothing = |it: &Refusal| it.about == About::NothingLands;
    let nowhere = all.iter().all(|it| it.iter().any(nothing));
    let mut merged: Vec<Refusal> = Vec::new();
    for refusal in all.into_iter().flatten().filter(|it| nowhere || !nothing(it)) {
        if merged.iter().all(|it| it.about != refusal.about) {
            merged.push(refusal);
        }
    }
    merged
}

/// The beams with their supports, each of the house in which most comes to it.
pub(super) fn supports(mut beams: Beams, all: &[Vec<Support>], first: &Case<'_>) -> Beams {
    let count = all.first().map_or(0, Vec::len);
    for number in 0..count {
        let here = || all.iter().filter_map(|it| it.get(number));
        let least = here().map(|it| it.least).fold(Pounds(f64::INFINITY), Pounds::min);
        let most = here().reduce(|one, other| if other.whole.0 > one.whole.0 { other } else { one });
        let (Some(most), Some(own)) = (most, here().next()) else { continue };
        // What holds it is called as the house that is drawn calls it.
        beams.supports.push(Support { least, on: own.on, at: own.at, ..most.clone() });
    }
    beams.figures = first.words.beams(&beams);
    beams
}

/// Hangers for the heaviest of each face; posts that carry their support in every house; the narrowest headers.
pub(super) fn ends(all: Vec<Ends>, first: &Case<'_>, refused: bool) -> Ends {
    let mut all = all.into_iter();
    let Some(mut merged) = all.next() else { return Ends::default() };
    for other in all {
        for face in other.hangers {
            hanger(&mut merged.hangers, face);
        }
        for (known, post) in merged.posts.iter_mut().zip(other.posts) {
            post_of(known, post);
        }
        // A header has to do in all of them.
        merged.headers.retain_mut(|known| {
            let same = other.headers.iter().find(|it| it.member == known.member);
            same.is_some_and(|it| {
                (known.longest, known.jacks) = (known.longest.min(it.longest), known.jacks.max(it.jacks));
                true
            })
        });
    }
    for post in &mut merged.posts {
        post.figures = if refused { Vec::new() } else { first.words.posts(post, first.stretch.lumber) };
        post.sentence = first.words.post_asked(post, refused);
    }
    merged.figures = first.words.hangers(&merged.hangers);
    merged.header_figures = first.words.headers(&merged.headers);
    merged
}

fn hanger(all: &mut Vec<Face>, face: Face) {
    match all.iter_mut().find(|it| it.left == face.left && it.member == face.member) {
        Some(known) => {
            let count = known.count.max(face.count);
            if face.most > known.most {
                *known = face;
            }
            known.count = count;
        }
        None => all.push(face),
    }
}

fn post_of(known: &mut Posts, post: Posts) {
    known.choices.retain_mut(|choice| {
        let same = post.choices.iter().find(|it| it.name == choice.name);
        same.is_some_and(|it| {
            let plate = choice.plate.max(it.plate);
            if it.ratio > choice.ratio {
                *choice = it.clone();
            }
            choice.plate = plate;
            true
        })
    });
    known.uplift = [known.uplift, post.uplift].into_iter().flatten().reduce(Pounds::max);
    if post.asked > known.asked {
        (known.asked, known.under, known.steel) = (post.asked, post.under, post.steel);
    }
}

/// Each post, member and footing on the way down as it is in the house in which it fares worst.
pub(super) fn down(all: Vec<Down>, proposed: &Proposed, first: &Case<'_>) -> Down {
    let mut all = all.into_iter();
    let Some(mut merged) = all.next() else { return Down::default() };
    for other in all {
        for (number, post) in other.posts.into_iter().enumerate() {
            if let Some(known) = merged.posts.get_mut(number) {
                post_down(known, post);
            }
        }
        for member in other.members {
            match merged.members.iter_mut().find(|it| it.node == member.node) {
                Some(known) if worse(known, &member) => *known = member,
                Some(_) => {}
                None => merged.members.push(member),
            }
        }
        for one in other.pressed {
            match merged.pressed.iter_mut().find(|it| it.node == one.node) {
                Some(known) if harder(known, &one) => *known = one,
                Some(_) => {}
                None => merged.pressed.push(one),
            }
        }
        for what in other.open_up {
            if !merged.open_up.contains(&what) {
                merged.open_up.push(what);
            }
        }
    }
    for (post, (id, _)) in merged.posts.iter_mut().zip(&proposed.posts) {
        post.post = *id;
        post.sentence = first.words.post_down(post);
    }
    merged.figures = first.words.down(&merged, first.stretch.lumber);
    merged
}

fn post_down(known: &mut PostDown, post: PostDown) {
    let (gap, added) = (known.gap.max(post.gap), known.added);
    let mut joists = known.joists.clone();
    joists.extend(post.joists.iter().filter(|it| !known.joists.contains(it)));
    let mut packs: Vec<Pack> = known.packs.clone();
    for pack in &post.packs {
        match packs.iter_mut().find(|it| it.wall == pack.wall) {
            Some(known) => {
                let more = match (known.studs, pack.studs) {
                    (Some(one), Some(other)) => other.0.plies > one.0.plies,
                    (one, _) => one.is_some(),
                };
                if more {
                    *known = *pack;
                }
            }
            None => packs.push(*pack),
        }
    }
    let load = |it: &PostDown| it.pad.map_or(0.0, |it| it.load.0);
    if load(&post) > load(known) || post.gap > known.gap + 1e-9 {
        *known = post;
    }
    (known.gap, known.added, known.joists, known.packs) = (gap, added, joists, packs);
}

/// Whether the second of two checks of one member is the worse; no figure is worse than any.
fn worse(one: &Reloaded, other: &Reloaded) -> bool {
    let ratio = |it: &Reloaded| it.after.map_or(f64::INFINITY, |it: Checked| it.governing().ratio);
    ratio(other) > ratio(one)
}

fn harder(one: &Pressed, other: &Pressed) -> bool {
    let ratio = |it: &Pressed| it.column_after.map_or(0.0, |it| it.ratio);
    (other.overloaded, ratio(other), other.after.0) > (one.overloaded, ratio(one), one.after.0)
}

/// Lines of props for the heaviest of each side, left out only where no house asks for them.
pub(super) fn shoring(all: Vec<Shoring>) -> Shoring {
    let mut all = all.into_iter();
    let Some(mut merged) = all.next() else { return Shoring::default() };
    for other in all {
        for line in other.lines {
            match merged.lines.iter_mut().find(|it| it.left == line.left) {
                Some(known) => prop_line(known, line),
                None => merged.lines.push(line),
            }
        }
        merged.thrust = match (merged.thrust, other.thrust) {
            (Some(one), Some(other)) if other.all().0 > one.all().0 => Some(other),
            (one, other) => one.or(other),
        };
        for sentence in other.sentences {
            if !merged.sentences.contains(&sentence) {
                merged.sentences.push(sentence);
            }
        }
    }
    merged
}

fn prop_line(known: &mut PropLine, line: PropLine) {
    let (skip, far) = (known.skip.filter(|_| line.skip.is_some()), known.far.min(line.far));
    let span: Feet = known.span.max(line.span);
    if line.most > known.most {
        *known = line;
    }
    (known.skip, known.far, known.span) = (skip, far, span);
}
