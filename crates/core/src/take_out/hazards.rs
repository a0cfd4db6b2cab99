//! What may be in the wall, the floor and the ceiling besides wood: services and dust by name, for the order of work.
//!
//! Data alone: which of them a house may have follows from its year, as far as anybody stated it. `steps` places them.

use serde::Serialize;

use super::{ASBESTOS_UP_TO, LEAD_BEFORE};

/// Wires on porcelain knobs were put in up to about this year (common practice).
const KNOB_AND_TUBE_UP_TO: u16 = 1950;

/// One of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Hazard {
    /// Wires, switched off and tried.
    Wires,
    /// Wires on porcelain knobs, with cloth around them.
    KnobAndTube,
    /// Gas pipes.
    Gas,
    /// Water, waste and vent pipes.
    Pipes,
    /// Ducts.
    Ducts,
    /// Tubes or wires that heat a floor or ceiling.
    Radiant,
    /// Lead paint.
    Lead,
    /// Asbestos that the law presumes in old houses.
    Asbestos,
    /// Asbestos in what was sold after that.
    AsbestosLater,
    /// Work with the roof open or loaded by snow.
    Snow,
    /// Props that could fall over.
    PropBracing,
}

impl Hazard {
    /// All of them.
    pub const ALL: [Self; 11] = [
        Self::Wires,
        Self::KnobAndTube,
        Self::Gas,
        Self::Pipes,
        Self::Ducts,
        Self::Radiant,
        Self::Lead,
        Self::Asbestos,
        Self::AsbestosLater,
        Self::Snow,
        Self::PropBracing,
    ];

    /// Whether a house of this year may have it; of a year that nobody stated every one.
    #[must_use]
    pub const fn may_be(self, built: Option<u16>) -> bool {
        match (self, built) {
            (Self::Lead, Some(year)) => year < LEAD_BEFORE,
            (Self::Asbestos, Some(year)) => year <= ASBESTOS_UP_TO,
            (Self::AsbestosLater, Some(year)) => year > ASBESTOS_UP_TO,
            (Self::KnobAndTube, Some(year)) => year <= KNOB_AND_TUBE_UP_TO,
            // The older kind says it all.
            (Self::AsbestosLater, None) => false,
            _ => true,
        }
    }

    /// Who answers it.
    #[must_use]
    pub const fn who(self) -> &'static str {
        match self {
            Self::Wires | Self::KnobAndTube => "a licensed electrician",
            Self::Gas => "the gas company or a licensed fitter",
            Self::Pipes => "a plumber",
            Self::Ducts | Self::Radiant => "a heating contractor",
            Self::Lead => "a firm certified for lead renovation",
            Self::Asbestos | Self::AsbestosLater => "a licensed asbestos inspector",
            Self::Snow => "the engineer",
            Self::PropBracing => "the crew's lead",
        }
    }

    /// What is done.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Wires => "Find the wires in the stretch, over it and under the posts; switch them off and try each.",
            Self::KnobAndTube => {
                "Look for wires on porcelain knobs: leave them alone, have them replaced before insulation or dust touches them."
            }
            Self::Gas => "Find every gas pipe along the line; shut it off at the meter, move it, test it.",
            Self::Pipes => "Find water, waste and vent pipes; a vent that is cut needs another way up.",
            Self::Ducts => "Find ducts; a return in the wall needs another way.",
            Self::Radiant => {
                "Look for heating in floor and ceiling before a nail, saw or prop goes in: tubes and wires do not show."
            }
            Self::Lead => {
                "Test paint for lead before any dust is made; where it holds lead a certified firm works or directs."
            }
            Self::Asbestos => {
                "Have plaster, boards, textured ceilings, vinyl floors and their glue, pipe wrap and loose insulation sampled for asbestos."
            }
            Self::AsbestosLater => {
                "Have vinyl floors and their glue, textured ceilings, joint compound, pipe wrap and roofing sampled for asbestos, in a house of after 1980 too."
            }
            Self::Snow => {
                "Work outside the snow season, or clear the roof first and keep it clear until the beam has its load."
            }
            Self::PropBracing => {
                "Brace each line of props lengthwise and across, head and foot fastened; wedges in pairs or jacks, checked each day."
            }
        }
    }

    /// Why, and by which rule.
    #[must_use]
    pub const fn why(self) -> &'static str {
        match self {
            Self::Wires => "a saw finds a live wire",
            Self::KnobAndTube => "old cloth insulation breaks where it is touched",
            Self::Gas => "a nicked pipe fills the house",
            Self::Pipes | Self::Ducts => "found late they stop the work with the house on props",
            Self::Radiant => "one hole floods or burns out a whole loop",
            Self::Lead => "work in houses of before 1978 for pay is for a certified firm (40 CFR 745, from memory)",
            Self::Asbestos => {
                "of up to 1980 it is presumed (29 CFR 1926.1101, from memory); before demolition it is looked for at any age (40 CFR 61.145, where that reaches, from memory)"
            }
            Self::AsbestosLater => {
                "it was sold after 1980, and the rule for demolition asks at any age where it reaches (40 CFR 61.145, from memory)"
            }
            Self::Snow => "props are counted for the snow that is on the roof, and a load that slides comes at once",
            Self::PropBracing => "a prop carries only while it stands plumb",
        }
    }
}

/// Those that a house of this year may have, and that its study calls for: snow where any is stated, bracing where props stand.
#[must_use]
pub fn hazards(built: Option<u16>, snow: bool, props: bool) -> Vec<Hazard> {
    let called = |it: &Hazard| match it {
        Hazard::Snow => snow,
        Hazard::PropBracing => props,
        _ => true,
    };
    Hazard::ALL.into_iter().filter(|it| it.may_be(built)).filter(called).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn asbestos_is_asked_of_every_year_and_lead_of_before_1978_alone() {
        for year in [1890, 1949, 1977, 1978, 1980, 1981, 2005] {
            let all = hazards(Some(year), true, true);
            assert!(all.iter().any(|it| matches!(it, Hazard::Asbestos | Hazard::AsbestosLater)), "{year}");
            assert_eq!(all.contains(&Hazard::Lead), year < 1978, "{year}");
        }
        let unknown = hazards(None, false, false);
        assert!(unknown.contains(&Hazard::Lead) && unknown.contains(&Hazard::Asbestos));
        assert!(!unknown.contains(&Hazard::Snow) && !unknown.contains(&Hazard::PropBracing));
    }

    #[test]
    fn every_one_says_what_why_and_who() {
        for it in Hazard::ALL {
            assert!(it.text().ends_with('.') && !it.why().is_empty() && !it.who().is_empty(), "{it:?}");
        }
    }
}
