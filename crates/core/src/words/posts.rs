//! The sentences of posts: those that stand under new load, and the props that hold a house up meanwhile.

use super::strength::of;
use super::take_out::{figure, fraction, no_figure, percent_of, stock};
use super::{Words, capital, combination, pounds, psf};
use crate::card::Figure;
use crate::footing::thickness;
use crate::ids::ElementId;
use crate::plan::{Element, FootingShape, Member};
use crate::take_out::{Column, FOOT, NoFigure, Pack, Pressed, Stock, is_timber};
use crate::trace::Node;
use crate::units::{Feet, Inches};

impl Words<'_> {
    /// A post or footing on the way down, with and without the new load.
    pub(crate) fn pressed(&self, it: &Pressed) -> (String, Vec<Figure>) {
        let name = capital(&self.node(it.node));
        let change = format!("{} now, {} with the new load", pounds(it.before), pounds(it.after));
        let high = it.height.map(|it| format!("{} high", self.length(Feet(it.0 / 12.0)))).unwrap_or_default();
        let sentence = match (it.pressure, it.column_after, it.no_figure) {
            (Some(pressure), ..) if it.overloaded => {
                format!("{name}: {change}, {} on the soil, over {}.", psf(pressure), self.taken_to_bear())
            }
            (Some(pressure), ..) => format!("{name}: {change}, {} on the soil.", psf(pressure)),
            (_, Some(after), _) => {
                let verdict = match (it.overloaded, after.passes()) {
                    (true, _) => "becomes overloaded",
                    (false, true) => "passes",
                    (false, false) => "is over what is allowed already",
                };
                let now = it.column_before.map(|it| percent_of(it.ratio)).unwrap_or_default();
                format!(
                    "{name} {verdict}: {change}; {now} now, {} then of what it carries, {high}.",
                    percent_of(after.ratio)
                )
            }
            (.., Some(NoFigure::SizeNotSeen)) => format!(
                "{name}: {change}; nobody saw its section: is it one that carries {}, {high}?",
                pounds(it.after)
            ),
            (.., Some(why)) => format!("{name}: {change}, {high}; {}.", no_figure(why)),
            _ => format!("{name}: {change}."),
        };
        let mut figures = Vec::new();
        for (when, column) in [("as it stands", it.column_before), ("with the new load", it.column_after)] {
            figures.extend(column.map(|column| self.column(when, &column, it.node)));
        }
        figures.extend(self.pad_carries(it.node));
        (sentence, figures)
    }

    /// What the soil is taken to bear, and by what: "the 2,000 psf it is stated to bear".
    fn taken_to_bear(&self) -> String {
        let (site, bears) = (self.plan.site(), psf(self.plan.site().soil()));
        if site.soil_is_stated() {
            format!("the {bears} it is stated to bear")
        } else {
            format!("{bears}, the least that the code presumes: what the soil bears is not stated")
        }
    }

    /// What a drawn pad brings to the soil at the most, and whether it is thick enough for its side.
    fn pad_carries(&self, node: Node) -> Option<Figure> {
        let Node::Footing(id) = node else { return None };
        let Some(Element::Footing(footing)) = self.plan.element(ElementId::Footing(id)) else { return None };
        let FootingShape::Pad { side, .. } = footing.shape else { return None };
        let (side, soil) = (Feet(side.inches() / 12.0), self.plan.site().soil());
        let carries = soil * (side * side);
        let wanted = thickness(Inches((side.0 * 12.0 - FOOT.0) / 2.0));
        let thick = match footing.thickness.map(|it| Inches(it.inches())) {
            Some(it) if it < wanted => format!(
                "; {} in thick, thinner than the {} in that plain concrete wants of this side (IRC R403.1.1)",
                fraction(it),
                fraction(wanted)
            ),
            Some(it) => format!("; {} in thick, as plain concrete wants of this side (IRC R403.1.1)", fraction(it)),
            None => {
                format!("; plain concrete wants {} in of thickness (IRC R403.1.1), nobody saw it", fraction(wanted))
            }
        };
        let how = format!(
            "A q = {:.2} sq ft x {}{thick}, under a foot of {} in; its own weight left out",
            (side * side).0,
            psf(soil),
            fraction(FOOT)
        );
        Some(figure("The pad drawn carries", pounds(carries), how))
    }

    /// A post by its section.
    fn column(&self, when: &str, column: &Column, node: Node) -> Figure {
        let post = match node {
            Node::Post(id) => self.plan.element(ElementId::Post(id)),
            _ => None,
        };
        let (member, own) = match post {
            Some(Element::Post(post)) => (post.member, post.wood),
            _ => Default::default(),
        };
        let value = format!("{} of {}", percent_of(column.ratio), pounds(column.carries));
        let of = format!("{member} {}", of(member, &own));
        figure(&format!("Column, {when}"), value, self.column_how(column, &of))
    }

    /// What goes into a wall below a post.
    pub(super) fn pack(&self, pack: &Pack) -> String {
        let wall = self.name(ElementId::Wall(pack.wall));
        match pack.studs {
            Some((member, _)) => {
                format!("; in {wall} right under it {member} or more, studs packed from plate to plate")
            }
            None => format!("; in {wall} right under it more than five studs, or a post"),
        }
    }

    /// Its figure.
    pub(super) fn pack_figure(&self, pack: &Pack, at: Feet, lumber: Stock) -> Option<Figure> {
        let (member, column) = pack.studs?;
        let label = format!("Studs in {} under the post at {}", self.name(ElementId::Wall(pack.wall)), self.length(at));
        let value = format!("{member}, {} of {}", percent_of(column.ratio), pounds(column.carries));
        Some(figure(&label, value, self.column_how(&column, &stock(lumber))))
    }

    /// What a post may carry, and by what.
    pub(crate) fn column_how(&self, column: &Column, of: &str) -> String {
        let most = crate::members::column::MOST_SLENDER;
        let slender = if column.slenderness > most {
            format!(", over the {most:.0} that NDS 3.7.1.4 allows")
        } else {
            String::new()
        };
        format!(
            "F'c A with Cp = {:.3}, le / d = {:.1}{slender}, {} high, held at head and foot; {of}; {} (NDS 3.7.1, 15.3)",
            column.cp,
            column.slenderness,
            self.length(Feet(column.height.0 / 12.0)),
            combination(column.under, self.plan.site().snow_edition)
        )
    }
}

/// The wood that a post is taken for: what is 5 in and thicker has a table of its own.
pub(crate) fn wood(member: Member, lumber: Stock) -> String {
    if is_timber(member) {
        "least of No. 2 posts and timbers, NDS Supplement Table 4D, from memory".to_owned()
    } else {
        stock(lumber)
    }
}
