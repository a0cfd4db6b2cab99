//! A plan as the part of an address after the `#`: the house file, deflated, in URL-safe base64.
//!
//! Nothing is sent anywhere by this; browsers keep that part of an address to themselves.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use miniz_oxide::deflate::compress_to_vec_zlib;
use miniz_oxide::inflate::decompress_to_vec_zlib_with_limit;

use super::{LoadError, Plan, PlanFile};

/// What every such part starts with.
const PREFIX: &str = "house=";
/// The largest house a link may unpack to, in bytes: a few kilobytes of link must not fill the memory.
const LARGEST: usize = 4 * 1024 * 1024;

/// Why a link did not become a plan.
#[derive(Debug, thiserror::Error)]
pub enum LinkError {
    /// Nothing after the `#` that this program wrote.
    #[error("this link holds no house")]
    NoHouse,
    /// Cut short or changed on its way, as mail programs do with long links.
    #[error("this link is damaged or was cut short on its way: ask for it again, or for the house file")]
    Damaged,
    /// It unpacks, but to no sound house.
    #[error(transparent)]
    Load(#[from] LoadError),
}

impl Plan {
    /// The part of an address after the `#` that carries this plan: all of it but photos, which are too large for mail.
    #[must_use]
    pub fn to_link(&self) -> String {
        let mut file = PlanFile::from(self);
        file.levels.iter_mut().flat_map(|level| &mut level.observations).for_each(|it| it.photo.clear());
        let json = serde_json::to_vec(&file).unwrap_or_default();
        format!("{PREFIX}{}", URL_SAFE_NO_PAD.encode(compress_to_vec_zlib(&json, 9)))
    }

    /// The plan that such a part carries; a leading `#` is passed over.
    pub fn from_link(part: &str) -> Result<Self, LinkError> {
        let part = part.trim().trim_start_matches('#');
        let packed = part.strip_prefix(PREFIX).filter(|rest| !rest.is_empty()).ok_or(LinkError::NoHouse)?;
        let packed = URL_SAFE_NO_PAD.decode(packed).map_err(|_| LinkError::Damaged)?;
        let json = decompress_to_vec_zlib_with_limit(&packed, LARGEST).map_err(|_| LinkError::Damaged)?;
        let json = String::from_utf8(json).map_err(|_| LinkError::Damaged)?;
        Ok(Self::from_json(&json)?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_link_carries_the_whole_plan() {
        let plan = Plan::new("Hill house");
        assert_eq!(Plan::from_link(&format!("#{}", plan.to_link())).expect("whole"), plan);
    }

    #[test]
    fn a_link_cut_anywhere_is_refused_and_never_half_read() {
        let link = Plan::new("Hill house").to_link();
        for end in 0..link.len() {
            let error = Plan::from_link(&link[..end]).expect_err("cut");
            assert!(matches!(error, LinkError::NoHouse | LinkError::Damaged), "{end}: {error}");
        }
    }

    #[test]
    fn a_link_that_unpacks_without_end_is_refused() {
        let bomb = compress_to_vec_zlib(&vec![b' '; 2 * LARGEST], 9);
        let link = format!("{PREFIX}{}", URL_SAFE_NO_PAD.encode(bomb));
        assert!(matches!(Plan::from_link(&link), Err(LinkError::Damaged)));
    }
}
