//! The sentences of a take-out study.

use super::{Words, capital, pounds};
use crate::card::Figure;
use crate::ids::ElementId;
use crate::loads::{ByKind, Kind, Weights};
use crate::plan::{Element, FootingShape, Set};
use crate::strength::check::Rule;
use crate::strength::lumber::{Grade, Species};
use crate::take_out::{
    Away, Beams, CARRIERS, Checked, Choice, Down, Face, Family, Fate, HeaderChoice, LIFT, Loses, Lost, Meets, Need,
    NoBeam, NoFigure, PROPS_APART, PadSize, PostDown, Posts, PropLine, PropsOn, Ratio, Reloaded, Shoring, SimpleEnds,
    Skip, Standing, Stock,
};
use crate::trace::{LaidAs, LinePart, Node, PointLoad};
use crate::units::{Feet, Inches, Pounds, Ticks};

/// A species group as a grade stamp has it.
#[must_use]
pub const fn species(species: Species) -> &'static str {
    match species {
        Species::DouglasFirLarch => "Douglas fir-larch",
        Species::HemFir => "hem-fir",
        Species::SprucePineFir => "spruce-pine-fir",
        Species::SouthernPine => "southern pine",
    }
}

/// A grade as a stamp has it.
#[must_use]
pub const fn lumber_grade(grade: Grade) -> &'static str {
    match grade {
        Grade::SelectStructural => "Select Structural",
        Grade::One => "No. 1",
        Grade::Two => "No. 2",
        Grade::Three => "No. 3",
    }
}

/// Species and grade: "spruce-pine-fir No. 2".
#[must_use]
pub fn stock(stock: Stock) -> String {
    format!("{} {}", species(stock.species), lumber_grade(stock.grade))
}

/// What a check goes by, as a noun.
#[must_use]
pub const fn rule(rule: Rule) -> &'static str {
    match rule {
        Rule::Bending | Rule::SteelBending => "bending",
        Rule::Shear | Rule::SteelShear => "shear",
        Rule::Crushing => "crushing at a seat",
        Rule::LiveSag => "sag under live load",
        Rule::TotalSag => "sag under all load",
    }
}

/// Why there is no figure.
#[must_use]
pub const fn no_figure(why: NoFigure) -> &'static str {
    match why {
        NoFigure::SizeNotSeen => "no figure: nobody saw their size",
        NoFigure::IJoist => "no figure: I-joists go by their maker's tables",
        NoFigure::WidthNotKnown => "no figure: only the depth is known",
        NoFigure::Rafter => "no figure: a rafter that meets a valley, a dormer or a change of slope is designed",
        NoFigure::Truss => "no figure: only the engineer of the truss maker says where a truss may bear",
        NoFigure::SteelColumn => "no figure: a steel column goes by its maker's table",
        NoFigure::Pier => "no figure: a masonry pier goes by its make and size, for an engineer",
        NoFigure::OutsideTables => "no figure: outside the tables of design values",
        NoFigure::NoSeat => "no figure: it does not rest on two supports",
    }
}

/// Inches to the hundredth.
#[must_use]
pub fn inches(length: Inches) -> String {
    format!("{:.2} in", length.0)
}

/// Inches as a rule has them: "11 7/8".
#[must_use]
pub fn fraction(length: Inches) -> String {
    crate::tape::in_fraction(Ticks::from_inches(length.0).unwrap_or_default())
}

/// A family of beams.
#[must_use]
pub const fn family(family: Family) -> &'static str {
    match family {
        Family::BuiltUp => "built-up lumber of 2 to 4 plies",
        Family::Veneer => "laminated veneer of 2 to 4 plies",
        Family::Glulam => "glulam",
        Family::Steel => "light steel W shapes",
    }
}

/// Why a family has none.
#[must_use]
pub const fn no_beam(why: NoBeam) -> &'static str {
    match why {
        NoBeam::NoneCarries => "none of the sizes here passes every check",
        NoBeam::Refused => "no size is named, for the reason stated",
        NoBeam::NotSoLong => "lumber over 20 ft is seldom in stock",
        NoBeam::SpanTooLong => "a span over 30 ft is designed, not picked from a table",
    }
}

fn fraction_in(length: Inches) -> String {
    format!("{} in", fraction(length))
}

/// A ratio as a share of what is allowed.
#[must_use]
pub fn percent(ratio: Ratio) -> String {
    percent_of(ratio.ratio)
}

/// A share of what is allowed.
#[must_use]
pub fn percent_of(ratio: f64) -> String {
    format!("{:.0} %", ratio * 100.0)
}

/// A figure of its three texts.
#[must_use]
pub fn figure(label: &str, value: String, how: String) -> Figure {
    Figure { label: label.to_owned(), value, how }
}

/// "600 lb dead + 1,200 lb floor live"; nothing for kinds of which there is none.
#[must_use]
pub fn by_kind<T: Copy + Into<f64>>(of: &ByKind<T>, print: impl Fn(T) -> String) -> String {
    let parts = Kind::ALL.iter().map(|kind| (*kind, of.get(*kind))).filter(|it| it.1.into().abs() > 0.05);
    let parts: Vec<String> = parts.map(|(kind, value)| format!("{} {}", print(value), super::kind(kind))).collect();
    if parts.is_empty() { "nothing".to_owned() } else { parts.join(" + ") }
}

/// A part shorter than this is told with its neighbour: 1/4 in.
const SLIVER: Feet = Feet(1.0 / 48.0);

/// Line loads with slivers spread over the part beside them, so that nothing is lost.
fn told(line: &[LinePart]) -> Vec<LinePart> {
    let mut all: Vec<LinePart> = Vec::with_capacity(line.len());
    for part in line {
        match all.last_mut() {
            Some(last)
                if part.start - last.end < SLIVER && (part.end - part.start).min(last.end - last.start) < SLIVER =>
            {
                let whole = last.loads * (last.end - last.start) + part.loads * (part.end - part.start);
                last.end = part.end;
                last.loads = whole.map(|pounds| pounds / (last.end - last.start));
            }
            _ => all.push(*part),
        }
    }
    all
}

impl Words<'_> {
    /// A length that passes, to the whole inch below: nobody knows it finer.
    fn at_most(&self, length: Feet) -> String {
        self.length(Feet((length.0 * 12.0 + 1e-6).floor() / 12.0))
    }

    /// A length by which something is too long, to the whole inch above.
    fn at_least(&self, length: Feet) -> String {
        self.length(Feet((length.0 * 12.0 - 1e-6).ceil() / 12.0))
    }

    /// What lands on a stretch.
    pub(crate) fn lands(
        &self,
        line: &[LinePart],
        points: &[PointLoad],
        ends: &SimpleEnds,
        length: Feet,
    ) -> Vec<Figure> {
        let mut all = Vec::new();
        for part in &told(line) {
            let label = format!("Line load, {} to {}", self.length(part.start), self.length(part.end));
            let how = "what each foot of the line gets of the joists, walls and roofs on it: their reactions by statics \
                       over the feet they lie on (the trace)";
            all.push(figure(&label, by_kind(&part.loads, super::plf), how.to_owned()));
        }
        for point in points {
            let label = format!("Point load at {}", self.length(point.at));
            all.push(figure(
                &label,
                by_kind(&point.weights, pounds),
                format!("from {} (the trace)", self.node(point.from)),
            ));
        }
        let span = self.length(length);
        for (label, weights) in [("Near end of a simple beam", ends.at_from), ("Far end of a simple beam", ends.at_to)]
        {
            let how =
                format!("each load times its distance from the other end, over the {span} of the stretch; statics");
            all.push(figure(label, by_kind(&weights, pounds), how));
        }
        all
    }

    /// "18 joists 2x6 at 16 in"; of a beam "Girder 4-2x12".
    fn group(&self, lost: &Lost) -> String {
        if let Node::Beam(_) = lost.of {
            return capital(&self.node(lost.of));
        }
        let size = if lost.member.is_seen() { format!(" {}", lost.member) } else { String::new() };
        let many = match (lost.laid_as, lost.count) {
            (LaidAs::Rafter, 1) if lost.no_figure == Some(NoFigure::Truss) => "truss",
            (LaidAs::Rafter, _) if lost.no_figure == Some(NoFigure::Truss) => "trusses",
            (LaidAs::Rafter, 1) => "rafter",
            (LaidAs::Rafter, _) => "rafters",
            (_, 1) => "joist",
            (_, _) => "joists",
        };
        format!("{} {many}{size} at {}", lost.count, self.short(lost.spacing))
    }

    /// What becomes of a group, in a sentence.
    pub(crate) fn lost(&self, lost: &Lost, away: Away) -> String {
        let group = self.group(lost);
        let now = self.length(lost.old_span);
        let on_plan = if lost.laid_as == LaidAs::Rafter { " on plan" } else { "" };
        let spans = lost.new_span.map(|span| {
            format!(
                "in one piece {} would span {} instead of {now}{on_plan}",
                if lost.spacing > Ticks::ZERO { "they" } else { "it" },
                self.length(span)
            )
        });
        let figure = match (lost.after, lost.no_figure) {
            (Some(after), _) => {
                let governs = after.governing();
                let verdict = if after.passes() { "passes" } else { "fails" };
                format!(
                    "; {} comes to {} of what is allowed and {verdict}, sag {} under live load",
                    rule(governs.rule),
                    percent(governs),
                    inches(after.live_sag)
                )
            }
            (None, Some(why)) => format!("; {}", no_figure(why)),
            (None, None) => String::new(),
        };
        let long = match (lost.longest, lost.too_long_by) {
            (Some(longest), Some(by)) => {
                format!("; the longest that would pass is {}, so {} too long", self.at_most(longest), self.at_least(by))
            }
            _ => String::new(),
        };
        let posts = if lost.count == 1 { "the post" } else { "the posts" };
        match (lost.meets, spans) {
            (Meets::RunThrough, Some(spans)) if matches!(lost.of, Node::Beam(_)) => {
                format!("{group} runs over {posts}: {spans}{figure}.")
            }
            (Meets::NotSeen, _) if matches!(lost.of, Node::Beam(_)) => format!(
                "Nobody saw whether {} is in one piece over {posts}: where pieces meet there, their ends have nothing under them.",
                self.node(lost.of)
            ),
            (_, _) if matches!(lost.of, Node::Beam(_)) => {
                format!(
                    "The pieces of {} meet over {posts}: without {posts} their ends have nothing under them.",
                    self.node(lost.of)
                )
            }
            (Meets::RunThrough, Some(_)) if matches!(away, Away::Nothing { .. }) => {
                let span = lost.new_span.unwrap_or(lost.old_span);
                format!("{group} span {} now where a wall here made it {now}{figure}{long}.", self.length(span))
            }
            (Meets::EndOn, _) => format!("{group} end here: without the stretch that end has nothing under it."),
            (Meets::Lap, _) => {
                format!("{group} lap here: without the stretch the ends of both pieces have nothing under them.")
            }
            (Meets::NotSeen, Some(spans)) => {
                format!(
                    "{group} cross here, and nobody looked whether they lap: if they do, both pieces fall; {spans}{figure}{long}."
                )
            }
            (Meets::RunThrough, Some(spans)) if lost.purlin.is_some() => {
                format!("{group} bear on a purlin whose struts stand here: without these {spans}{figure}.")
            }
            (Meets::RunThrough, Some(spans)) if lost.laid_as == LaidAs::Rafter => {
                format!(
                    "{group} run through: {spans}{figure}; how far they then push their feet apart is another matter."
                )
            }
            (Meets::RunThrough, Some(spans)) => format!("{group} run through: {spans}{figure}{long}."),
            (_, None) => format!("{group} would not rest on two supports any more."),
        }
    }

    /// The figures of a group.
    pub(crate) fn lost_figures(&self, lost: &Lost, lumber: Stock) -> Vec<Figure> {
        let mut all =
            vec![figure("Span now", self.length(lost.old_span), "the longer of those beside the line".to_owned())];
        if let Some(span) = lost.new_span {
            all.push(figure(
                "Span without",
                self.length(span),
                "between the supports that are left; in one piece".to_owned(),
            ));
        }
        let slope = if lost.laid_as == LaidAs::Rafter {
            ", on its slope: w cos^2 square to it on each foot, what presses along it left out"
        } else {
            ""
        };
        for (when, checked) in [("now", lost.before), ("without", lost.after)] {
            all.extend(
                checked
                    .map(|it| self.checks(when, &it, &format!("{} {}{slope}", lost.member, stock(lumber))))
                    .unwrap_or_default(),
            );
        }
        if let Some(longest) = lost.longest {
            let how = format!(
                "the shortest of sqrt(8 F'b S / w), 4/3 F'v b d / w and the span that sags to its limit, 5 w L^4 / 384 E I = L / n; \
                 {} {} at {}, NDS 3.3, 3.4 and IRC Table R301.7",
                lost.member,
                stock(lumber),
                self.short(lost.spacing)
            );
            all.push(figure("Longest that would pass", self.at_most(longest), how));
        }
        if let Some(by) = lost.too_long_by {
            all.push(figure(
                "Too long by",
                self.at_least(by),
                "the span without, less the longest that would pass".to_owned(),
            ));
        }
        all
    }

    /// The checks of a member, each a figure.
    pub(crate) fn checks(&self, when: &str, checked: &Checked, of: &str) -> Vec<Figure> {
        let span = self.length(checked.span);
        let mut all = Vec::new();
        for (label, ratio, formula) in [
            ("Bending", checked.bending, "fb = M / S over F'b"),
            ("Shear", checked.shearing, "fv = 3 V / 2 b d over F'v, the load within a depth of the support counted"),
        ] {
            let how = format!(
                "{formula}; M up to {} lb-ft, V up to {}; {of}; {} ({})",
                super::thousands(checked.moment.0),
                pounds(checked.shear),
                super::combination(ratio.under, self.plan.site().snow_edition),
                ratio.rule.source()
            );
            all.push(figure(&format!("{label}, {when}"), percent(ratio), how));
        }
        for (label, sag, limit, ratio) in [
            ("Sag under live load", checked.live_sag, checked.live_limit, checked.live),
            ("Sag under all load", checked.total_sag, checked.total_limit, checked.total),
        ] {
            let parts = checked.span.0 * 12.0 / sag.0;
            let value = if sag.0 > 0.005 { format!("{} (L/{parts:.0})", inches(sag)) } else { inches(sag) };
            let under = super::combination(ratio.under, self.plan.site().snow_edition);
            let how = if limit > 0.0 {
                let allows = inches(Inches::from(checked.span) / limit);
                format!("by the real loads on {span}; L/{limit:.0} allows {allows}; {under} ({})", ratio.rule.source())
            } else {
                format!("by the real loads on {span}; the span tables of joists ask nothing of it; {under}")
            };
            all.push(figure(&format!("{label}, {when}"), value, how));
        }
        all
    }

    /// What happens without, in sentences and figures.
    pub(crate) fn loses(&self, loses: &Loses, away: Away) -> (Vec<String>, Vec<Figure>) {
        let mut sentences: Vec<String> = loses.members.iter().map(|it| it.sentence.clone()).collect();
        let mut figures = Vec::new();
        for (node, weights) in &loses.others {
            let brings = by_kind(weights, pounds);
            let stands = match away {
                Away::Wall(_) => "would have nothing under it here",
                Away::Posts(_) => "stands on the old beam here and counts",
                Away::Nothing { .. } => "would come to a beam here",
            };
            sentences.push(format!("{} {stands}: it brings {brings}.", self.node(*node)));
            figures.push(figure(
                &capital(&self.node(*node)),
                brings,
                "what it puts on the stretch (the trace)".to_owned(),
            ));
        }
        for (node, weights) in &loses.through {
            let brings = by_kind(weights, pounds);
            sentences.push(format!(
                "{} stands on these joists: {brings} come to this stretch through them.",
                self.node(*node)
            ));
        }
        if !loses.gaps.is_empty() {
            let count = loses.gaps.len();
            let lost = loses.gaps.iter().filter_map(|it| it.weights).fold(Weights::default(), |sum, it| sum + it);
            sentences.push(format!("{count} path gaps would open: {} with nowhere to go.", by_kind(&lost, pounds)));
        }
        for ties in &loses.ties {
            let loose = by_kind(&ties.loose, pounds);
            sentences.push(format!(
                "A beam between the joists cuts the ties of the rafters over {}: {loose} of push outward is then loose.",
                self.length(ties.over)
            ));
            let how = format!(
                "moment at the ridge / rise = {} on each foot, times {}",
                by_kind(&ties.thrust, super::plf),
                self.length(ties.over)
            );
            figures.push(figure("Push outward set loose", loose, how));
        }
        (sentences, figures)
    }

    /// What the new beam carries, against the old one.
    pub(crate) fn times(&self, times: f64) -> String {
        format!(
            "A beam here has to carry {times:.1} times the bending of the old one: it grows with the square of the span."
        )
    }

    /// One beam in a sentence.
    pub(crate) fn choice(&self, choice: &Choice, set: Set) -> String {
        let fits = match (set, choice.drops) {
            (Set::Dropped, _) => format!("{} below the joists", fraction_in(choice.depth)),
            (Set::Flush, None) => "nobody saw how deep the joists are".to_owned(),
            (Set::Flush, Some(drops)) if drops.0 > 0.0 => format!("hangs {} below the joists", fraction_in(drops)),
            (Set::Flush, Some(_)) => "fits between the joists".to_owned(),
        };
        let lift = match choice.people {
            Some(1) => "one person lifts its heaviest piece".to_owned(),
            Some(people) => format!("{people} people lift its heaviest piece"),
            None => format!("its heaviest piece is more than {CARRIERS} people should lift: a hoist"),
        };
        format!(
            "{}: {} governs at {}; {fits}; {}, {lift}.",
            choice.name,
            rule(choice.governs.rule),
            percent(choice.governs),
            pounds(choice.weight)
        )
    }

    /// The figures of one beam.
    pub(crate) fn choice_figures(&self, choice: &Choice, length: Feet) -> Vec<Figure> {
        let mut all = self.checks("new beam", &choice.checked, &choice.name);
        let creep = choice.checked.total_sag + (choice.checked.total_sag - choice.checked.live_sag) * 0.5;
        let how = "sag under all load + half of what the dead load makes of it: wood sags on (NDS 3.5.2, 1.5 for dry wood, MEMORY)";
        if choice.family != Family::Steel {
            all.push(figure("Sag after years", inches(creep), how.to_owned()));
        }
        let how = format!("{} on each foot, {}", super::plf(choice.own), self.length(length));
        all.push(figure("Weight", pounds(choice.weight), how));
        let people = choice.people.map_or_else(|| "a hoist".to_owned(), |people| format!("{people}"));
        let how = format!(
            "heaviest piece {} over {} a person ({}, MEMORY); over {CARRIERS} people a hoist (common practice)",
            pounds(choice.piece),
            pounds(LIFT.value),
            LIFT.source
        );
        all.push(figure("People to lift it", people, how));
        if let (Some(seat), Some(studs)) = (choice.seat, choice.studs) {
            let how = format!(
                "R / (Fc-perp b), the softer of beam and plate, b = {}; {studs} studs of 1 1/2 in (NDS 3.10.2)",
                fraction_in(choice.width)
            );
            all.push(figure("Seat needed", inches(seat), how));
        }
        all
    }

    /// How plies are joined.
    pub(crate) fn plies(&self) -> String {
        "Plies are nailed or bolted to each other by the engineer's or the maker's schedule; one loaded from one side needs more.".to_owned()
    }

    /// The loads of the beam and what its supports get.
    pub(crate) fn beams(&self, beams: &Beams) -> Vec<Figure> {
        let mut all = Vec::new();
        for (number, support) in beams.supports.iter().enumerate() {
            let on = if let Node::Post(_) = support.on { "Post" } else { "Support" };
            let label =
                format!("{on} {} of {}, {} along the beam", number + 1, beams.supports.len(), self.length(support.at));
            let how = format!(
                "{} with the lightest beam's own weight; the heaviest is {}, live load on the worst spans (ASCE 7, 2.4.1)",
                by_kind(&support.with_beam, pounds),
                super::combination(support.under, self.plan.site().snow_edition)
            );
            all.push(figure(&label, pounds(support.most), how));
        }
        let how = "no further apart than this: by joists on it or hung from it; a beam over more than two posts is pressed below, \
                   where nothing holds it (NDS 3.3.3, AISC 360 F2)";
        all.push(figure("Held sideways at", format!("{:.0} in", beams.held.0), how.to_owned()));
        for (family, why) in &beams.none {
            let how = format!(
                "{}; longest span {}",
                no_beam(*why),
                self.length(beams.spans.iter().copied().fold(Feet::ZERO, Feet::max))
            );
            all.push(figure(&capital(self::family(*family)), "none".to_owned(), how));
        }
        all
    }

    /// Hangers and headers.
    pub(crate) fn hangers(&self, hangers: &[Face]) -> Vec<Figure> {
        let mut all = Vec::new();
        for face in hangers {
            let side = if face.left { "left" } else { "right" };
            let label = format!("Hangers on the {side} face, {} of them", face.count);
            let how = format!(
                "{} at the heaviest-loaded one: the joist's end by statics; heaviest {}, for {}",
                by_kind(&face.each, pounds),
                super::combination(face.under, self.plan.site().snow_edition),
                if face.member.is_seen() { face.member.to_string() } else { "joists whose size nobody saw".to_owned() }
            );
            all.push(figure(&label, format!("{} each", pounds(face.most)), how));
        }
        all
    }

    /// Headers for a narrower opening.
    pub(crate) fn headers(&self, headers: &[HeaderChoice]) -> Vec<Figure> {
        let mut all = Vec::new();
        for header in headers {
            let how =
                format!("{} jack studs under each end; IRC Table R602.7, by a rule fitted to its cells", header.jacks);
            all.push(figure(
                &format!("Header {}", header.member),
                format!("up to {}", self.at_most(header.longest)),
                how,
            ));
        }
        all
    }

    /// What the post under one support is asked for, and the smallest that carries it.
    pub(crate) fn post_asked(&self, posts: &Posts, refused: bool) -> String {
        let (at, high) = (self.length(posts.at), self.length(Feet(posts.height.0 / 12.0)));
        let asked = format!("The post at {at}, {high} high, is asked for {}", pounds(posts.asked));
        match posts.choices.first() {
            Some(least) => {
                let plate = percent_of(least.plate);
                let crushes =
                    if least.plate > 1.0 { format!("; a wood plate it presses to {plate}") } else { String::new() };
                format!("{asked}: of these {} is the smallest that carries it{crushes}.", least.name)
            }
            None if refused => format!("{asked}."),
            None => format!("{asked}: more than the studs and timbers here carry."),
        }
    }

    /// The post under one support.
    pub(crate) fn posts(&self, posts: &Posts, lumber: Stock) -> Vec<Figure> {
        let mut all = Vec::new();
        for choice in &posts.choices {
            let how = format!(
                "F'c A with Cp = {:.3} at {} high, {}; asked {}; presses a plate to {:.0} % of Fc-perp Cb (NDS 3.7.1, 15.3, 3.10.2), {}",
                choice.cp,
                fraction_in(posts.height),
                super::combination(choice.under, self.plan.site().snow_edition),
                pounds(posts.asked),
                choice.plate * 100.0,
                if choice.name == "6x6" {
                    "least of No. 2 posts and timbers, NDS Supplement Table 4D, MEMORY".to_owned()
                } else {
                    stock(lumber)
                }
            );
            all.push(figure(&format!("Post {}", choice.name), format!("carries {}", pounds(choice.carries)), how));
        }
        let how = format!("by its maker's table at {} high", fraction_in(posts.height));
        all.push(figure("Steel column: capacity asked", pounds(posts.steel), how));
        if let Some(uplift) = posts.uplift {
            let how = "live load on the other spans alone lifts the beam here: it is tied down".to_owned();
            all.push(figure("Uplift", pounds(uplift), how));
        }
        all
    }

    /// One post on its way down.
    pub(crate) fn post_down(&self, down: &PostDown) -> String {
        let at = self.length(down.at);
        let pad = match down.pad {
            Some(PadSize { side, thickness, stated: true, .. }) => {
                let (side, thickness) = (fraction(side), fraction(thickness));
                format!("{side} x {side} in pad, {thickness} in thick")
            }
            Some(_) => "pad, of no size here, for what the soil bears is not stated".to_owned(),
            None => "pad, of no size here".to_owned(),
        };
        let names: Vec<String> = down.on.iter().filter(|it| **it != Node::Gap).map(|it| self.node(*it)).collect();
        let on = names.join(" and ");
        match () {
            () if down.added.is_some() => format!("The post at {at} stands on a new {pad}: a slab is no footing."),
            () if down.gap > 1e-6 => {
                format!(
                    "{:.0} % of what the post at {at} brings has nowhere to go: a new post below it and a {pad}.",
                    down.gap * 100.0
                )
            }
            () if !down.joists.is_empty() => {
                format!(
                    "The post at {at} stands on joists in mid-span, beside what could carry it ({on}): a new post below it and a {pad}, or move it."
                )
            }
            () if down.on.iter().all(|it| self.is_pad(*it)) => {
                format!("The post at {at} stands on {on}; for what it brings it needs a {pad}.")
            }
            () if down.on.iter().all(|it| matches!(it, Node::Footing(_))) => {
                format!(
                    "The post at {at} stands on {on}: a strip is taken to spread it along its whole length; alone it needs a {pad}."
                )
            }
            () => {
                let packs: Vec<String> = down.packs.iter().map(|it| self.pack(it)).collect();
                format!("The post at {at} comes to {on}: solid blocks between floor and support{}.", packs.concat())
            }
        }
    }

    fn is_pad(&self, node: Node) -> bool {
        let Node::Footing(id) = node else { return false };
        let footing = self.plan.element(ElementId::Footing(id));
        matches!(footing, Some(Element::Footing(it)) if matches!(it.shape, FootingShape::Pad { .. }))
    }

    /// A member on the way, with and without the new load.
    pub(crate) fn reloaded(&self, it: &Reloaded, standing: &Standing) -> (String, Vec<Figure>) {
        let name = capital(&self.node(it.node));
        let of = format!("{} {}", standing.member, stock(standing.stock));
        let mut figures = Vec::new();
        for (when, checked) in [("as it stands", it.before), ("with the post on it", it.after)] {
            figures.extend(checked.map(|checked| self.checks(when, &checked, &of)).unwrap_or_default());
        }
        let governs = |checked: Checked| format!("{} {}", rule(checked.governing().rule), percent(checked.governing()));
        let sentence = match (it.before, it.after, it.no_figure) {
            (Some(before), Some(after), _) => {
                let verdict = match (it.overloaded, after.passes()) {
                    (true, _) => "becomes overloaded",
                    (false, true) => "passes",
                    (false, false) => "is over what is allowed already",
                };
                format!("{name} {verdict}: {} now, {} with the new load.", governs(before), governs(after))
            }
            (_, Some(after), _) => format!("{name}: {} with the new load.", governs(after)),
            (.., Some(why)) => format!("{name}: {}.", no_figure(why)),
            _ => format!("{name}: no piece of it is near."),
        };
        (sentence, figures)
    }

    /// Pads.
    pub(crate) fn down(&self, down: &Down, lumber: Stock) -> Vec<Figure> {
        let mut all = Vec::new();
        if !down.members.is_empty() || !down.pressed.is_empty() {
            let how = "what the posts of the new beam put on what is below, beside the trace of the proposed house: the \
                       lightest beam's own weight, live load on its worst spans; each in the house in which it is worst";
            all.push(figure("New load below", "the heaviest that fits, and the beam".to_owned(), how.to_owned()));
        }
        for (at, pack) in down.posts.iter().flat_map(|post| post.packs.iter().map(|it| (post.at, it))) {
            all.extend(self.pack_figure(pack, at, lumber));
        }
        let pads = down.posts.iter().filter_map(|post| Some((post, post.pad.filter(|it| it.load > Pounds(1.0))?)));
        for (post, pad) in pads {
            let talk = if pad.stated {
                ""
            } else {
                "what the soil bears is not stated: on the least that the code presumes (IRC Table R401.4.1), for talking only, not \
                 to be poured on; "
            };
            let how = format!(
                "{talk}A = P / q = {} / {}, up to the inch; as thick as it projects and 6 in at least (IRC R403.1.1); its own weight left out; a bare 4 in slab would press {} under it",
                pounds(pad.load),
                super::psf(pad.soil),
                super::psf(pad.on_slab)
            );
            let mark = if pad.stated { "" } else { ", for talking only" };
            let value = format!("{} in square, {} in thick{mark}", fraction(pad.side), fraction(pad.thickness));
            let at = self.length(post.at);
            let own = post.added.is_some() || post.gap > 1e-6 || !post.joists.is_empty();
            let label = if own {
                format!("Pad for the post at {at}")
            } else {
                format!("Pad, were the post at {at} taken straight down")
            };
            all.push(figure(&label, value, how));
        }
        all
    }

    /// A line of props.
    pub(crate) fn prop_line(&self, line: &PropLine, lumber: Stock) -> (String, Vec<Figure>) {
        let side = if line.left { "left" } else { "right" };
        let ratio = line.joists.map(|it| it.governing());
        let joists = match ratio {
            Some(it) if it.ratio > 1.0 => {
                format!("; the joists on them come to {} of what is allowed: closer, or more lines", percent(it))
            }
            Some(it) => format!("; the joists on them come to {} of what is allowed", percent(it)),
            None => "; the joists on them are not checked: their size is not known".to_owned(),
        };
        let on = match line.on {
            PropsOn::Ground => "on planks on the ground or slab",
            PropsOn::Across(_) => "on planks along the line, across the joists of the floor",
            PropsOn::Along(_) => "on planks across at least three of the joists that run along the line",
            PropsOn::NotKnown => "on a floor of which nobody said how it is framed",
        };
        let sentence = match line.skip {
            Some(Skip::NothingThere) => format!("No props on the {side}: nothing comes from there."),
            Some(Skip::OnePieceSpansOn) => {
                format!(
                    "The {side} side may go without props: the joists run through in one piece and pass every check on the other line alone, which is counted so."
                )
            }
            None => format!(
                "Props on the {side}, {} off the line, {on}: {}{joists}; {}.",
                self.length(line.offset),
                super::plf(line.most),
                self.prop(line, lumber)
            ),
        };
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
            "{by} with L = {}, a = {}, and what stands above, {}, {tip}; the line has half of the span, {}; the far end keeps {}; {}",
            self.length(line.span),
            self.length(line.offset),
            by_kind(&line.above, super::plf),
            super::plf(line.had),
            super::plf(line.far),
            super::combination(line.under, self.plan.site().snow_edition)
        );
        let mut figures = vec![figure(&format!("Props on the {side}"), super::plf(line.most), how)];
        let how = format!("that line load times {} (common practice)", self.length(PROPS_APART));
        figures.push(figure(&format!("One prop on the {side}"), pounds(line.each), how));
        figures.extend(line.prop.map(|it| self.prop_figures(&it, lumber)).unwrap_or_default());
        if let Some(checked) = line.joists {
            figures.extend(self.checks("on props", &checked, "joists"));
        }
        (sentence, figures)
    }

    /// All of the props.
    pub(crate) fn shoring(&self, shoring: &Shoring) -> Vec<String> {
        let mut all: Vec<String> = shoring.lines.iter().map(|it| it.sentence.clone()).collect();
        if shoring.lines.is_empty() {
            all.push("No joists rest on the stretch: props under joists hold nothing here.".to_owned());
        }
        if !shoring.lines.is_empty() {
            all.push("Adjustable steel props go by their maker's table at this height: no figure here.".to_owned());
        }
        if shoring.lines.iter().any(|it| it.far < crate::units::Plf::ZERO) {
            all.push("What stands above would lift the far ends of the joists: it is held up by itself, on needles through the wall.".to_owned());
        }
        for level in &shoring.below {
            all.push(format!("The same line of props stands below, on {}.", self.level(*level)));
        }
        if let Some(thrust) = shoring.thrust {
            all.push(format!(
                "Ties across, above the cut, hold {} of push outward until the joists are tied again.",
                by_kind(&thrust, pounds)
            ));
        }
        all
    }

    /// Whether members need a wall.
    pub(crate) fn needs(&self, need: Need, members: &[Lost]) -> String {
        let worst = members.iter().find(|it| matches!(it.fate, Fate::Fails)).or_else(|| members.first());
        let worst = worst.map(|it| format!(" {}", it.sentence)).unwrap_or_default();
        match need {
            Need::EndsOnIt => format!("It is needed: members end on it.{worst}"),
            Need::WouldFail => format!("It is needed, though what is over it runs through.{worst}"),
            Need::HoldsUp => format!("It is needed: more than joists stands on it.{worst}"),
            Need::NotKnown => format!("It counts as needed until somebody has looked.{worst}"),
            Need::TouchingOnly => {
                format!("What passes over it touches it, and would pass the checks without it.{worst}")
            }
            Need::NothingRests => "Nothing drawn rests on it.".to_owned(),
        }
    }
}
