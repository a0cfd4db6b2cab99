//! What soil may bear where nobody tested it.

use serde::{Deserialize, Serialize};

use super::{Mark, Sourced};
use crate::units::Psf;

/// A soil, by the classes of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Soil {
    /// Crystalline bedrock.
    Bedrock,
    /// Sedimentary and foliated rock.
    FoliatedRock,
    /// Sandy gravel or gravel: GW, GP.
    Gravel,
    /// Sand, silty or clayey sand, silty or clayey gravel: SW, SP, SM, SC, GM, GC.
    Sand,
    /// Clay, sandy or silty clay, clayey silt, silt: CL, ML, MH, CH.
    Clay,
    /// Mud, peat, organic silt or clay, fill that nobody prepared.
    Organic,
}

impl Soil {
    /// All of them, in the order of the table.
    pub const ALL: [Self; 6] = [Self::Bedrock, Self::FoliatedRock, Self::Gravel, Self::Sand, Self::Clay, Self::Organic];

    /// Presumptive bearing; none for a soil that the table gives no figure without data. Where under 1,500 psf is likely
    /// the same table asks for an investigation.
    #[must_use]
    pub const fn presumptive(self) -> Option<Sourced<Psf>> {
        let psf = match self {
            Self::Bedrock => 12_000.0,
            Self::FoliatedRock => 4000.0,
            Self::Gravel => 3000.0,
            Self::Sand => 2000.0,
            Self::Clay => return Some(soil_usual()),
            Self::Organic => return None,
        };
        let source = "IRC Table R401.4.1; IBC 2012 Table 1806.2";
        Some(Sourced { value: Psf(psf), source, mark: Mark::Seen })
    }
}

/// Presumptive soil bearing where nothing is known, in psf.
#[must_use]
pub const fn soil_usual() -> Sourced<Psf> {
    Sourced {
        value: Psf(1500.0),
        source: "IRC Table R401.4.1: clay, sandy clay, silty clay, clayey silt, silt, sandy silt",
        mark: Mark::Seen,
    }
}
