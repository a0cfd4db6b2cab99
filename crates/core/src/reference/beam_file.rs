//! How a file of beams is written: the question of each case, and what is expected of it.

use serde::Deserialize;

#[derive(Deserialize)]
pub(super) struct File {
    pub(super) cases: Vec<Case>,
}

#[derive(Deserialize)]
pub(super) struct Case {
    pub(super) id: String,
    #[serde(rename = "E_psi")]
    pub(super) e: f64,
    #[serde(rename = "I_in4")]
    pub(super) i: f64,
    pub(super) length_ft: f64,
    pub(super) supports_ft: Vec<f64>,
    pub(super) breaks_ft: Vec<f64>,
    pub(super) uniform: Vec<Uniform>,
    pub(super) point: Vec<Point>,
    #[serde(default)]
    pub(super) fixed_ends: Vec<String>,
    pub(super) expect: State,
    /// The same solved in full, where `expect` holds closed forms only.
    pub(super) library: Option<State>,
}

#[derive(Deserialize)]
pub(super) struct Uniform {
    pub(super) from_ft: f64,
    pub(super) to_ft: f64,
    pub(super) plf: f64,
    /// Where the load grows or falls straight: what it is at `to_ft`.
    pub(super) plf_end: Option<f64>,
}

#[derive(Deserialize)]
pub(super) struct Point {
    pub(super) x_ft: f64,
    pub(super) lb: f64,
}

/// What is expected of one way of support; every field is a figure to compare, so an unknown one is refused.
#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct State {
    pub(super) total_load_lb: Option<f64>,
    pub(super) two_way: Option<Box<State>>,
    pub(super) push_only: Option<Box<State>>,
    pub(super) simple_tributary_ft: Vec<f64>,
    pub(super) effective_width_ft: Vec<f64>,
    pub(super) stable: Option<bool>,
    pub(super) reactions_lb: Vec<f64>,
    pub(super) lifted_supports_ft: Option<Vec<f64>>,
    pub(super) pieces: Vec<PieceState>,
    pub(super) moment_max_lbft: Option<Peak>,
    pub(super) moment_min_lbft: Option<Peak>,
    pub(super) shear_abs_max_lb: Option<Peak>,
    pub(super) deflection_down_max_in: Option<Peak>,
    pub(super) deflection_up_max_in: Option<Peak>,
    pub(super) spans: Vec<SpanState>,
    #[serde(rename = "reactions_over_wL")]
    pub(super) reactions_over_wl: Vec<String>,
    #[serde(rename = "support_moments_over_wL2")]
    pub(super) support_moments_over_wl2: Vec<String>,
    pub(super) published_rounded: Option<Rounded>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PieceState {
    pub(super) from_ft: f64,
    pub(super) to_ft: f64,
    pub(super) supports_ft: Vec<f64>,
    pub(super) reactions_lb: Vec<f64>,
    pub(super) lifted_supports_ft: Option<Vec<f64>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SpanState {
    pub(super) kind: String,
    pub(super) from_ft: f64,
    pub(super) to_ft: f64,
    pub(super) moment_max_lbft: f64,
    pub(super) moment_min_lbft: f64,
    pub(super) deflection_down_max_in: f64,
    pub(super) deflection_up_max_in: f64,
}

/// A greatest value: with its place, or bare.
#[derive(Deserialize)]
#[serde(untagged)]
pub(super) enum Peak {
    Placed {
        value: f64,
        x_ft: Option<f64>,
        /// Not stated: the place is stated because it is the only one.
        #[serde(default = "stated")]
        x_unique: bool,
        side: Option<String>,
    },
    Bare(f64),
}

const fn stated() -> bool {
    true
}

/// Factors as a printed table rounds them.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Rounded {
    #[serde(rename = "reactions_over_wL")]
    pub(super) reactions_over_wl: Vec<f64>,
    #[serde(rename = "moment_span1_over_wL2")]
    pub(super) moment_span1: f64,
    /// Not compared: see `CUT_SHORT`.
    #[serde(rename = "moment_span2_over_wL2")]
    pub(super) _moment_span2: f64,
    #[serde(rename = "support_moment_R3_over_wL2")]
    pub(super) support_moment_r3: f64,
    #[serde(rename = "deflection_over_wL4_EI")]
    pub(super) deflection: f64,
    #[serde(rename = "at_over_L")]
    pub(super) at: f64,
}

impl Peak {
    pub(super) const fn value(&self) -> f64 {
        match self {
            Self::Placed { value, .. } | Self::Bare(value) => *value,
        }
    }

    /// Where it stands, when it stands nowhere else.
    pub(super) const fn place(&self) -> Option<f64> {
        match self {
            Self::Placed { x_ft, x_unique: true, .. } => *x_ft,
            _ => None,
        }
    }
}
