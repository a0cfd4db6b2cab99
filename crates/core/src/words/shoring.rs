//! The sentences of shoring: lines of props, needles, what they stand on, and what nothing here holds.

use super::posts::wood;
use super::take_out::{by_kind, figure, percent_of, rule, stock};
use super::{Words, capital, plf, pounds, thousands};
use crate::card::Figure;
use crate::ids::ElementId;
use crate::take_out::{
    BRACE, Block, Held, Holds, Meets, Needles, NoProp, NoWay, OnProps, OwnProp, PROPS_APART, Prop, PropLine, PropsOn,
    Shoring, Skip, Stock, Unheld, is_timber,
};
use crate::units::{Plf, Pounds};

const fn side(left: bool) -> &'static str {
    if left { "left" } else { "right" }
}

impl Words<'_> {
    /// A line of props.
    pub(crate) fn prop_line(&self, line: &PropLine, lumber: Stock) -> (String, Vec<Figure>) {
        let side = side(line.left);
        let mut sentence = match line.skip {
            Some(Skip::NothingThere) => format!("No props on the {side}: nothing comes from there."),
            Some(Skip::OnePieceSpansOn) => format!(
                "The {side} side may go without props: the joists run through in one piece and pass every check on the other \
                 line alone, which is counted so."
            ),
            None => format!(
                "Props on the {side}, {} off the line, {}: {}{}; {}.",
                self.length(line.offset),
                props_on(line),
                plf(line.most),
                joists_on(line),
                self.prop(line, lumber)
            ),
        };
        if line.skip.is_none() {
            for cut in &line.cut_by {
                sentence += &format!(
                    " {} cuts this line in two: {} and {}, each with a header of its own and a prop at each end.",
                    capital(&self.name(ElementId::Wall(cut.wall))),
                    self.length(cut.before),
                    self.length(cut.past)
                );
            }
            if line.alone < Plf::ZERO && line.far >= Plf::ZERO {
                sentence += &format!(
                    " These props alone do not hold what stands on the plate: left on the ends of the joists it would lift \
                     their far ends by {}.",
                    plf(-line.alone)
                );
            }
        }
        (sentence, self.line_figures(line, lumber))
    }

    fn line_figures(&self, line: &PropLine, lumber: Stock) -> Vec<Figure> {
        let side = side(line.left);
        let by = if line.meets == Meets::RunThrough {
            "the joists in one piece on the props and what is left to hold them, by statics,"
        } else {
            "w L^2 / (2 (L - a))"
        };
        let tip = if line.meets == Meets::RunThrough {
            "over the line"
        } else {
            "on the end that overhangs, times L / (L - a)"
        };
        let how = format!(
            "{by} with L = {}, a = {}, and what stands above, {}, {tip}; the line has half of the span, {}; {}",
            self.length(line.span),
            self.length(line.offset),
            by_kind(&line.above, plf),
            plf(line.had),
            super::combination(line.under, self.plan.site().snow_edition)
        );
        let mut all = vec![figure(&format!("Props on the {side}"), plf(line.most), how)];
        let how = format!(
            "the least over every combination, live load and snow taken off where they hold it down; {} were all that stands \
             on the stretch left on the ends of the joists; under zero they tip over the props",
            plf(line.alone)
        );
        all.push(figure(&format!("Far end on the {side}"), plf(line.far), how));
        let how = format!("that line load times {} (common practice)", self.length(PROPS_APART));
        all.push(figure(&format!("One prop on the {side}"), pounds(line.each), how));
        let how = format!(
            "{} of what one prop carries, along the line and square to it (common practice)",
            percent_of(BRACE)
        );
        all.push(figure(&format!("Brace of one prop on the {side}"), pounds(line.each * BRACE), how));
        all.extend(line.prop.map(|it| self.prop_figures(&it, lumber)).unwrap_or_default());
        if let Some(checked) = line.joists {
            all.extend(self.checks("on props", &checked, "joists"));
        }
        if let Some(weak) = line.weakened {
            let how = format!(
                "{}, what is left of the joist there, {} (NDS 3.1.2, 3.4.3, MEMORY)",
                rule(weak.worst.rule),
                super::combination(weak.worst.under, self.plan.site().snow_edition)
            );
            let value = if weak.worst.ratio > 100.0 { "nothing left".to_owned() } else { percent_of(weak.worst.ratio) };
            all.push(figure(&format!("{} on props", self.name(ElementId::JoistCut(weak.cut))), value, how));
        }
        if let Some(floor) = line.floor {
            let share = if matches!(line.on, PropsOn::Across(_)) {
                "each with what the line brings over its spacing"
            } else {
                "each of three with a third of the line"
            };
            let how = format!(
                "the joists of the floor under the props, {share}, were the line to stop there; {} governs",
                rule(floor.governing().rule)
            );
            all.push(figure(&format!("Floor under the props on the {side}"), percent_of(floor.governing().ratio), how));
        }
        all
    }

    /// What the props of a line may be.
    fn prop(&self, line: &PropLine, lumber: Stock) -> String {
        let Some(prop) = line.prop else {
            return match line.no_prop {
                Some(NoProp::Refused) => "props: no size is named, for the reason stated".to_owned(),
                Some(NoProp::Tips) => format!(
                    "no size of props here: the joists tip over them, their far ends lift by {}; what stands above goes on \
                     needles, or the far ends are held down",
                    plf(-line.far)
                ),
                Some(NoProp::NoneCarries) | None => "props: none of the sizes here passes every check".to_owned(),
            };
        };
        let wood = if is_timber(prop.member) { "any No. 2".to_owned() } else { stock(lumber) };
        let header = prop
            .header
            .map_or_else(|| "a header that is designed".to_owned(), |it| format!("a {} header on edge", it.0));
        format!("{} props of {wood} no further apart than {}, under {header}", prop.member, self.length(prop.apart))
    }

    /// The figures of one prop.
    fn prop_figures(&self, prop: &Prop, lumber: Stock) -> Vec<Figure> {
        let how = format!(
            "{} on each, {} apart: {}; CD 1.0 at the most, for nobody says how long props stand: the 1.25 of seven days (NDS \
             Table 2.3.2) is not taken",
            pounds(prop.asked),
            self.length(prop.apart),
            self.column_how(&prop.column, &format!("{} {}", prop.member, wood(prop.member, lumber)))
        );
        let value = format!("{} of {}", percent_of(prop.column.ratio), pounds(prop.column.carries));
        let mut all = vec![figure(&format!("A {} prop", prop.member), value, how)];
        let how = format!(
            "P / A = {} / {:.2} sq in over Fc-perp Cb of {}, somewhere along it (NDS 3.10.2, 3.10.4)",
            pounds(prop.asked),
            prop.area,
            stock(lumber)
        );
        all.push(figure("Plates over and under a prop", percent_of(prop.plate), how));
        if let Some((member, checked)) = prop.header {
            let governs = checked.governing();
            let how = format!(
                "M up to {} lb-ft, V up to {} over {} with joists where they are worst; {} governs ({}); {}",
                thousands(checked.moment.0),
                pounds(checked.shear),
                self.length(prop.apart),
                rule(governs.rule),
                governs.rule.source(),
                stock(lumber)
            );
            all.push(figure(&format!("Header {member} on props"), percent_of(governs.ratio), how));
        }
        all
    }

    /// Something that stands on the stretch, and what holds it meanwhile.
    pub(crate) fn held(&self, held: &Held, lumber: Stock) -> (String, Vec<Figure>) {
        let what = capital(&self.node(held.what));
        let place = held.at.map(|at| format!(" at {}", self.length(at))).unwrap_or_default();
        let brings = format!("{what}{place}, {}", pounds(held.most));
        match held.by {
            Holds::JoistEnds => {
                let sentence = format!(
                    "{brings} in all, stays on the ends of the joists: on the props they pass every check with it, and their \
                     far ends stay down."
                );
                (sentence, Vec::new())
            }
            Holds::Needles(it) => (
                format!("{brings} in all, stands on the top plate, not on joist ends: {}.", self.needles(&it)),
                self.needle_figures(&what, &it, lumber),
            ),
            Holds::OwnProp(it) => {
                let many = if it.count == 1 {
                    "a prop of its own".to_owned()
                } else {
                    format!("{} props of its own", it.count)
                };
                let sentence = format!(
                    "{brings}, gets {many} right under it, as far off the line as the others: {} on a {}.",
                    pounds(it.each),
                    it.post
                );
                (sentence, self.own_prop_figures(&what, &it, lumber))
            }
            Holds::Nothing(why) => (format!("{brings}: nothing here holds it. {}", self.unheld(why)), Vec::new()),
        }
    }

    fn needles(&self, it: &Needles) -> String {
        let each = pounds(it.each);
        match it.apart {
            Some(apart) => format!(
                "{} needles through the wall right under the plate, one under each foot, no further apart than {}, {each} on \
                 each, on a {} post at each end, {} apart",
                it.needle,
                self.length(apart),
                it.post,
                self.length(it.span)
            ),
            None => format!(
                "a {} needle through the wall right under it, {each}, on a {} post at each end, {} apart",
                it.needle,
                it.post,
                self.length(it.span)
            ),
        }
    }

    fn needle_figures(&self, what: &str, it: &Needles, lumber: Stock) -> Vec<Figure> {
        let governs = it.checked.governing();
        let how = format!(
            "P L / 4 = {} x {} / 4 = {} lb-ft; {} governs ({}); {}",
            pounds(it.each),
            self.length(it.span),
            thousands(it.checked.moment.0),
            rule(governs.rule),
            governs.rule.source(),
            stock(lumber)
        );
        let mut all = vec![figure(&format!("Needle under {what}"), percent_of(governs.ratio), how)];
        let how = format!(
            "{} on 3 1/2 in by 3 1/2 in over Fc-perp Cb of {} (NDS 3.10.2, 3.10.4)",
            pounds(it.each),
            stock(lumber)
        );
        all.push(figure(&format!("Plate on a needle under {what}"), percent_of(it.plate), how));
        let value = format!("{} of {}", percent_of(it.column.ratio), pounds(it.column.carries));
        let how = format!(
            "half of it on each post; {}",
            self.column_how(&it.column, &format!("{} {}", it.post, wood(it.post, lumber)))
        );
        all.push(figure(&format!("Post of a needle under {what}"), value, how));
        all
    }

    fn own_prop_figures(&self, what: &str, it: &OwnProp, lumber: Stock) -> Vec<Figure> {
        let value = format!("{} of {}", percent_of(it.column.ratio), pounds(it.column.carries));
        let how = format!(
            "{}; the beam as it then rests, by statics; {}",
            pounds(it.each),
            self.column_how(&it.column, &format!("{} {}", it.post, wood(it.post, lumber)))
        );
        let mut all = vec![figure(&format!("Prop under {what}"), value, how)];
        all.extend(it.beam.map(|checked| self.checks("on its prop", &checked, what)).unwrap_or_default());
        all
    }

    fn no_way(&self, why: NoWay) -> String {
        match why {
            NoWay::Opening { level, opening } => format!(
                "a prop there would stand over {}, in the floor over {}",
                self.name(ElementId::FloorOpening(opening)).to_lowercase(),
                self.level(level)
            ),
            NoWay::Outside { level } => format!(
                "a prop there would stand outside, beside {}, a storey or more above the ground: a tower that is designed",
                self.level(level)
            ),
        }
    }

    fn unheld(&self, why: Unheld) -> String {
        match why {
            Unheld::OnTheBeam => "It stands on the beam that goes, and no needle passes under it.".to_owned(),
            Unheld::TooHeavy => "No needle and no post tried here carries it.".to_owned(),
            Unheld::NoWayDown(why) => format!("{}.", capital(&self.no_way(why))),
            Unheld::TooShort => {
                "It is too short for a prop between the line and its next support: props nearer the line.".to_owned()
            }
            Unheld::BeamOnProp => "On a prop beside its seat it fails a check, or nobody knows its size.".to_owned(),
            Unheld::NotFollowed => {
                "It lands here, and nothing that was followed brings it: somebody has to look what it stands on."
                    .to_owned()
            }
            Unheld::Refused => "No size is named, for the reason stated.".to_owned(),
        }
    }

    /// Why nothing is cut yet.
    pub(crate) fn shoring_block(&self, block: &Block) -> String {
        match *block {
            Block::Tips { left, far } => format!(
                "Do not cut: on the {} the joists tip over the props, their far ends lift by {}. Needles, or a hold-down at \
                 the far ends, by an engineer.",
                side(left),
                plf(-far)
            ),
            Block::JoistsFail { left, ratio } => format!(
                "Do not cut: on the {} the joists fail on the props, at {} of what is allowed. Props nearer the line, or \
                 a second line of them.",
                side(left),
                if ratio > 100.0 { "more than ten times".to_owned() } else { percent_of(ratio) }
            ),
            Block::JoistsNotKnown { left } => format!(
                "Do not cut: on the {} nobody knows the size of the joists, and props ask more of them than the wall does now.",
                side(left)
            ),
            Block::NoProp { left, most } => {
                format!("Do not cut: on the {} no prop here carries {}.", side(left), plf(most))
            }
            Block::NoWayDown { left, why } => {
                format!("Do not cut: props on the {} have no way to the ground: {}.", side(left), self.no_way(why))
            }
            Block::NotHeld { what, most, why } => {
                format!("Do not cut: nothing here holds {}, {}. {}", self.node(what), pounds(most), self.unheld(why))
            }
        }
    }

    /// What is to know of the props besides.
    pub(crate) fn shoring_notes(&self, shoring: &Shoring) -> Vec<String> {
        let mut all = Vec::new();
        let lines = || shoring.lines.iter().filter(|it| it.skip.is_none());
        if shoring.lines.is_empty() && shoring.held.is_empty() {
            all.push("No joists rest on the stretch: props under joists hold nothing here.".to_owned());
        } else {
            let most = lines().map(|it| it.each).fold(Pounds::ZERO, Pounds::max);
            all.push(format!(
                "Brace every line of props both ways, along it and square to it, for {} of what each carries ({} on the \
                 heaviest; common practice): diagonals nailed at head and foot, a plate under and over, pairs of wedges or \
                 screw jacks to bring the load on slowly.",
                percent_of(BRACE),
                pounds(most * BRACE)
            ));
            all.push("Adjustable steel props go by their maker's table at this height: no figure here.".to_owned());
        }
        if lines().any(|it| it.on == PropsOn::NotKnown) && !shoring.below.is_empty() {
            all.push(
                "Nobody said how the floor under the props is framed: it counts for nothing, and nothing is cut before the \
                 props go on down to the ground."
                    .to_owned(),
            );
        }
        for level in &shoring.below {
            all.push(format!(
                "The same line of props stands below, on {}, with solid blocks in the floor between.",
                self.level(*level)
            ));
        }
        if let Some(thrust) = shoring.thrust {
            all.push(format!(
                "Ties across, above the cut, hold {} of push outward until the joists are tied again.",
                by_kind(&thrust, pounds)
            ));
        }
        all
    }
}

fn props_on(line: &PropLine) -> &'static str {
    let fails = line.floor.is_some_and(|it| !it.passes());
    match line.on {
        PropsOn::Ground => "on planks on the ground or slab",
        PropsOn::Across(_) if fails => {
            "on planks along the line; the joists of the floor under it fail alone, and props go on below"
        }
        PropsOn::Along(_) if fails => {
            "on planks across at least three of the joists that run along the line; these fail alone, and props go on below"
        }
        PropsOn::Across(_) => "on planks along the line, across the joists of the floor",
        PropsOn::Along(_) => "on planks across at least three of the joists that run along the line",
        PropsOn::NotKnown => "on a floor of which nobody said how it is framed: props go on below",
    }
}

fn joists_on(line: &PropLine) -> String {
    let ratio = line.worst_ratio();
    let cut =
        if line.weakened.is_some_and(|it| it.worst.ratio >= ratio) { ", at a notch or hole drawn in them" } else { "" };
    match line.on_props {
        OnProps::Fails if ratio > 100.0 => "; the joists on them fail: a cut leaves nothing of one".to_owned(),
        OnProps::Fails => format!("; the joists on them fail, at {} of what is allowed{cut}", percent_of(ratio)),
        OnProps::Passes => format!("; the joists on them come to {} of what is allowed{cut}", percent_of(ratio)),
        OnProps::NoMoreThanNow => {
            "; nobody knows the size of the joists, and the props bend and shear them no more than the wall does now"
                .to_owned()
        }
        OnProps::NotKnown => {
            "; nobody knows the size of the joists, and the props ask more of them than the wall does now".to_owned()
        }
    }
}
