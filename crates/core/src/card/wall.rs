//! The card of a wall: the verdict, how sure it is, why, and what to look at next.

use super::workers::from_roofs;
use super::{Card, Figure, StretchLine, Why, Work, listed};
use crate::ids::{ElementId, WallId};
use crate::ladder::load_word;
use crate::order::InOrder as _;
use crate::plan::{Element, Grade, Joints, Side, Use};
use crate::trace::{Caution, Node, Origin, Reason, Role, WallTrace};
use crate::units::Feet;
use crate::words;

impl Work<'_> {
    pub(super) fn wall(&self, id: WallId) -> Option<Card> {
        let wall = self.trace.wall(id)?;
        let line = self.plan.wall(id)?.1;
        let mut reasons: Vec<Reason> = Vec::new();
        for reason in wall.stretches.iter().flat_map(|stretch| &stretch.reasons) {
            if !reasons.contains(reason) {
                reasons.push(*reason);
            }
        }
        let mut figures = self.widths(&wall.feeds);
        figures.extend(self.line_figure(&wall.line.iter().map(|part| part.loads).collect::<Vec<_>>()));
        figures.extend(wall.points.iter().map(|point| self.point_figure(point)));
        figures.push(self.total("On its top in all", wall.top));
        figures.push(Figure {
            label: "Its own weight".to_owned(),
            value: words::pounds(wall.own.dead),
            how: "its face, openings not taken out".to_owned(),
        });
        let roof = self.plan.level(wall.level).into_iter().flat_map(|level| &level.roofs);
        let eave = |roof: &&crate::plan::Roof| reasons.contains(&Reason::RoofStandsOn { roof: roof.id });
        for roof in roof.filter(eave) {
            figures.extend(self.thrust(roof.id));
        }
        figures.extend(self.reduced_on_studs(wall.top.roof_live, &from_roofs(&wall.feeds)));
        let stretches = wall.stretches.iter().map(|stretch| {
            let (from, to) = (self.words.length(stretch.start), self.words.length(stretch.end));
            let text = format!("{from} to {to}: {}", words::role(stretch.role));
            StretchLine {
                role: stretch.role,
                badge: stretch.role.badge(),
                text,
                start: stretch.start,
                end: stretch.end,
            }
        });
        Some(Card {
            sentence: self.verdict(wall, line.side),
            sure: self.sure(wall, &reasons),
            stretches: stretches.collect(),
            why: self.whys(&reasons),
            figures,
            watch: wall.cautions.iter().map(|caution| self.words.caution(caution)).collect(),
            look: self.look(wall, &reasons),
            ..Card::default()
        })
    }

    pub(super) fn verdict(&self, wall: &WallTrace, side: Side) -> String {
        let mut lands: Vec<&str> = Vec::new();
        let mut stored = false;
        let mut origins: Vec<Origin> = wall.feeds.iter().map(|feed| feed.origin).collect();
        origins.order();
        origins.dedup();
        lands.extend(origins.iter().map(|origin| load_word(*origin)));
        for feed in &wall.feeds {
            if let Node::Field(id) = feed.from
                && let Some(Element::Field(field)) = self.plan.element(ElementId::Field(id))
            {
                stored |= field.used_as == Use::AtticStorage;
            }
        }
        if stored {
            lands.push("what is stored over it");
        }
        let reasons = || wall.stretches.iter().flat_map(|stretch| &stretch.reasons);
        if reasons().any(|it| matches!(it, Reason::WallStandsOn { .. } | Reason::WallNearStandsOn { .. })) {
            lands.push("a wall above");
        }
        if reasons().any(|it| matches!(it, Reason::RidgeRestsOn { .. })) {
            lands.push("the ridge beam");
        }
        if reasons().any(|it| matches!(it, Reason::BeamRestsOn { .. } | Reason::BeamLiesOn { .. })) {
            lands.push("a beam");
        }
        if reasons().any(|it| matches!(it, Reason::PostStandsOn { .. })) {
            lands.push("a post above");
        }
        if side == Side::Outside {
            return match lands.as_slice() {
                [] => "This is an outside wall: it counts as bearing, though nothing drawn lands on it yet.".to_owned(),
                lands => format!("This outside wall counts as bearing, and carries {}.", listed(lands)),
            };
        }
        let carrying: Feet = wall.stretches.iter().filter(|it| it.role.carries()).map(|it| it.end - it.start).sum();
        let open: Feet =
            wall.stretches.iter().filter(|it| it.role == Role::NeedsALook).map(|it| it.end - it.start).sum();
        let whole = wall.length.0 - carrying.0 < 0.02;
        let lands = listed(&lands);
        if carrying.0 > 0.0 && whole {
            return format!("This wall carries {lands}.");
        }
        if carrying.0 > 0.0 {
            let rest = if open.0 > 0.0 { "the rest needs a look" } else { "nothing was found that lands on the rest" };
            let (part, all) = (self.words.length(carrying), self.words.length(wall.length));
            return format!("This wall carries {lands} on {part} of its {all}; {rest}.");
        }
        if open.0 > 0.0 {
            return "Not settled yet: until somebody looks, this wall counts as bearing.".to_owned();
        }
        match wall.stretches.iter().filter(|it| it.role == Role::HoldsPoint).count() {
            0 => "Nothing found that lands on this wall.".to_owned(),
            1 => "This wall holds a beam or a post in one place; nothing was found that lands on the rest.".to_owned(),
            n => format!("This wall holds a beam or a post in {n} places; nothing was found that lands on the rest."),
        }
    }

    /// How sure: the weakest fact used, and what was taken for granted.
    pub(super) fn sure(&self, wall: &WallTrace, reasons: &[Reason]) -> String {
        let mut weakest: Option<Grade> = None;
        let mut laps_open = false;
        let fields = reasons.iter().filter_map(|reason| match reason {
            Reason::JoistsLapOver { field }
            | Reason::JoistsEndOn { field }
            | Reason::JoistsPassOver { field }
            | Reason::JoistsCross { field }
            | Reason::JoistsRunAlong { field }
            | Reason::DirectionNotSeen { field, .. } => Some(*field),
            _ => None,
        });
        for id in fields {
            if let Some(Element::Field(field)) = self.plan.element(ElementId::Field(id)) {
                weakest = Some(weakest.map_or(field.known, |grade| grade.max(field.known)));
                let crosses = reasons.contains(&Reason::JoistsCross { field: id });
                laps_open |= field.joints == Joints::NotSeen && crosses;
            }
        }
        let open = wall.stretches.iter().any(|it| it.role == Role::NeedsALook);
        let mut text = match weakest {
            None if open => return "Nobody has said yet what is overhead.".to_owned(),
            None => "From what is drawn.".to_owned(),
            Some(grade) => format!("The weakest fact used: the way the joists run is {}.", words::grade(grade)),
        };
        if laps_open {
            text.push_str(" Nobody looked whether they lap; traced as if they do.");
        }
        text
    }

    /// What to look at next, from what is open.
    pub(super) fn look(&self, wall: &WallTrace, reasons: &[Reason]) -> Vec<String> {
        let mut look: Vec<&str> = Vec::new();
        for reason in reasons {
            match reason {
                Reason::NothingStatedOverhead => {
                    look.push("Look through the attic hatch, or lift a board: which way do the joists run over this wall?");
                }
                Reason::DirectionNotSeen { .. } => look.push("See the joists themselves: a small hole in the ceiling settles direction and size."),
                Reason::JoistsCross { .. } => look.push("Look along the top of this wall: do the joists lap on it or run through?"),
                Reason::RoofFrameNotSeen { .. } => look.push("Look at the roof from the attic: rafters or trusses, ridge board or ridge beam, struts down to this wall?"),
                Reason::TrussesNotLookedAt { .. } => look.push("Look at the trusses: metal plates, a bearing tag near the middle, any web cut?"),
                Reason::TrussesSiteBuilt { .. } | Reason::TrussWebCut { .. } | Reason::TrussesBearInside { .. } => look.push("Show the trusses to an engineer before this wall is touched."),
                _ => {}
            }
        }
        if wall.cautions.contains(&Caution::CheckBothSides) {
            look.push("Look along both sides of it, over its whole length.");
        }
        look.dedup();
        look.into_iter().map(str::to_owned).collect()
    }

    /// Each sentence once: two fields alike give one.
    pub(super) fn whys(&self, reasons: &[Reason]) -> Vec<Why> {
        let mut whys: Vec<Why> = Vec::new();
        for why in reasons.iter().map(|reason| self.why(reason)) {
            if !whys.contains(&why) {
                whys.push(why);
            }
        }
        whys
    }

    pub(super) fn why(&self, reason: &Reason) -> Why {
        Why {
            text: self.words.reason(reason),
            known: self.words.known(reason).to_owned(),
            against: reason.speaks_against(),
        }
    }
}
