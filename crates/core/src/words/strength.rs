//! What is said of the strength of what stands: of which wood, how much of it is used, and why nobody knows.

use super::take_out::{figure, inches, no_figure, percent, percent_of, rule, species, stock};
use super::{Words, combination, pounds, psf, thousands};
use crate::card::Figure;
use crate::ids::{ElementId, RoofId};
use crate::plan::{Element, Material, Member, Plan, Roof, RoofFrame, Wood};
use crate::stands::{Holds, Sagged, Stands};
use crate::strength::factors::{Incising, Moisture, Stress};
use crate::strength::unstamped::{SOURCE, least};
use crate::take_out::limits::Brittle;
use crate::take_out::{Checked, is_timber};
use crate::trace::Node;
use crate::units::Inches;

/// Why a roof brings nothing to a wall between its eaves.
pub(super) fn goes_past(plan: &Plan, roof: RoofId) -> &'static str {
    match plan.element(ElementId::Roof(roof)) {
        Some(Element::Roof(Roof { frame: RoofFrame::RidgeBeam, .. })) => {
            "The rafters rest on a ridge beam and on the eave walls: the roof goes to those, and to what holds the ridge beam."
        }
        _ => "The rafters are tied and meet at a ridge board: the roof goes to the eave walls.",
    }
}

/// The wood that a part is taken for.
pub(crate) fn of(member: Member, wood: &Wood) -> String {
    let what = match (member.material, wood.stock) {
        (Material::Lvl, _) => "of the least grade of laminated veneer".to_owned(),
        _ if is_timber(member) => "least of No. 2 posts and timbers, NDS Supplement Table 4D, from memory".to_owned(),
        (_, Some(by)) => stock(by),
        (_, None) => "without a stamp".to_owned(),
    };
    let wet = if wood.moisture == Moisture::Wet { ", wet" } else { "" };
    let incised = if wood.incising == Incising::Incised { ", incised" } else { "" };
    format!("{what}{wet}{incised}")
}

/// What an unstamped piece of sawn lumber is taken for; nothing for one whose stamp was read.
pub(crate) fn taken_for(member: Member, wood: &Wood) -> Option<Figure> {
    let how = unstamped(member).filter(|_| wood.stock.is_none())?;
    Some(figure("Its wood", "least of No. 2".to_owned(), how))
}

/// Which value an unstamped piece is taken to have, and of which group: "Fb 800 psi (southern pine), ...".
fn unstamped(member: Member) -> Option<String> {
    let names = |of| match of {
        Stress::Bending => Some("Fb"),
        Stress::Shear => Some("Fv"),
        Stress::AcrossGrain => Some("Fc-perp"),
        Stress::AlongGrain => Some("Fc"),
        Stress::Modulus => Some("E"),
        Stress::Tension => None,
    };
    let one = |it: &crate::strength::unstamped::Least| {
        let name = names(it.of)?;
        Some(format!("{name} {} psi ({})", super::thousands(it.value.0), species(it.species)))
    };
    let all: Vec<String> = least(member)?.iter().filter_map(one).collect();
    Some(format!("nobody read a stamp: {}; {SOURCE}, in part from memory", all.join(", ")))
}

/// How much of what a part may carry is used.
pub(crate) fn used(found: &Stands) -> Figure {
    let label = "Used of what it may carry";
    let (value, how) = match found.holds {
        Holds::Bends(checked) => {
            let governs = checked.governing();
            let of = if let ElementId::Beam(_) = found.part { "" } else { ", of the worst of them" };
            (percent(governs), format!("{} governs ({}){of}", rule(governs.rule), governs.rule.source()))
        }
        Holds::Column(column) if column.passes() || column.ratio > 1.0 => {
            (percent_of(column.ratio), "what comes over F'c A (NDS 3.7.1, 15.3)".to_owned())
        }
        Holds::Column(column) => {
            ("too slender".to_owned(), format!("le / d = {:.1}, over 50 (NDS 3.7.1.4)", column.slenderness))
        }
        Holds::Soil(soil, bears) => {
            (percent_of(soil.most / bears), format!("{} of the {} stated", psf(soil.most), psf(bears)))
        }
        Holds::SoilNotStated(soil) => {
            ("no figure".to_owned(), format!("it presses {}: nobody stated what the soil bears", psf(soil.most)))
        }
        Holds::NoFigure(why) => ("no figure".to_owned(), no_figure(why).trim_start_matches("no figure: ").to_owned()),
    };
    figure(label, value, how)
}

/// Of one that is over.
pub(crate) fn over(found: &Stands) -> String {
    let used = found.used().map(percent_of).unwrap_or_default();
    match found.holds {
        Holds::Bends(checked) if !found.endangers() => format!(
            "As drawn it sags further than is allowed: {used} by {}. What hangs from it or lies on it may crack.",
            rule(checked.governing().rule)
        ),
        Holds::Bends(checked) => format!(
            "As drawn it is overloaded: {used} of what it may carry, by {}. Have an engineer look at it before anything else \
             is put on it.",
            rule(checked.governing().rule)
        ),
        Holds::Column(column) if column.ratio <= 1.0 => {
            "It is more slender than any post may be (NDS 3.7.1.4): have an engineer look at it.".to_owned()
        }
        Holds::Column(_) => {
            format!("As drawn it is overloaded: {used} of what it may carry. Have an engineer look at it.")
        }
        _ => format!("As drawn it presses the soil to {used} of what that is stated to bear: it may sink."),
    }
}

/// What limits the sag besides the usual rule.
pub(crate) fn limited_by(brittle: Brittle) -> Figure {
    let limit = brittle.limit();
    let how = format!("its layers say {} ({}{})", brittle.word(), limit.source, super::from_memory(limit.mark));
    figure("May sag under live load", format!("L/{:.0}", limit.value), how)
}

/// How far a strip spreads a post.
pub(crate) fn spread(post: &str, most: String, along: String) -> Figure {
    let how = format!(
        "{post} over {along} of the strip: at 45 degrees through its thickness, 6 in where nobody saw it (IRC R403.1.1), and \
         what walls bring besides; a stem wall between would spread it further"
    );
    figure("Hardest on the soil", most, how)
}

/// The sag in the long run, beside the limits that leave it out.
pub(crate) fn crept(when: &str, checked: &Checked) -> Option<Figure> {
    let more = checked.crept - checked.total_sag;
    let times = 1.0 + more / checked.dead_sag;
    (more.0 > 0.005).then(|| {
        let how = format!(
            "the dead load's {} counted {times:.1} times (NDS 3.5.2, from memory); the limits are checked without it",
            inches(checked.dead_sag)
        );
        figure(&format!("Sag in the long run, {when}"), inches(checked.crept), how)
    })
}

impl Words<'_> {
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
                thousands(checked.moment.0),
                pounds(checked.shear),
                combination(ratio.under, self.plan.site().snow_edition),
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
            let under = combination(ratio.under, self.plan.site().snow_edition);
            let how = if limit > 0.0 {
                let allows = inches(Inches::from(checked.span) / limit);
                format!("by the real loads on {span}; L/{limit:.0} allows {allows}; {under} ({})", ratio.rule.source())
            } else {
                format!("by the real loads on {span}; the span tables of joists ask nothing of it; {under}")
            };
            all.push(figure(&format!("{label}, {when}"), value, how));
        }
        all.extend(crept(when, checked));
        all
    }

    /// A measured sag over its span.
    pub(crate) fn sagged(&self, it: &Sagged) -> Figure {
        let how = format!(
            "{} over {} of {}; new floor joists may sag by L/360 under live load, all sag of years counted here",
            inches(it.by),
            self.length(it.span),
            self.node(it.what)
        );
        figure("That is", format!("L/{:.0}", it.part), how)
    }

    /// The wood of what a node stands for.
    pub(crate) fn wood_at(&self, node: Node) -> Wood {
        let part = match node {
            Node::Field(id) => ElementId::Field(id),
            Node::Beam(id) => ElementId::Beam(id),
            Node::Post(id) => ElementId::Post(id),
            Node::Roof(id) => ElementId::Roof(id),
            _ => return Wood::default(),
        };
        self.plan.wood_of(part)
    }
}
