//! A plan as the part of an address after the `#`: the house file packed, deflated, in URL-safe base64.
//!
//! Nothing is sent anywhere by this; browsers keep that part of an address to themselves. A version stands in front and a
//! checksum of the whole at the end, so that a link that was changed on its way is never read, not even in part.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::inflate::{decompress_to_vec_with_limit, decompress_to_vec_zlib_with_limit};

use super::{LoadError, Plan, pack};

/// What every such part starts with.
const PREFIX: &str = "house=";
/// The version that this program writes, and the newest it reads.
const VERSION: u8 = 2;
/// The first byte of a link of version 1, which was the house file, deflated: every zlib stream starts with it.
const ZLIB: u8 = 0x78;
/// The longest part that is looked at, in letters.
const LONGEST: usize = 2 * 1024 * 1024;
/// The largest house a link may unpack to, in bytes: a few kilobytes of link must not fill the memory.
const LARGEST: usize = 1024 * 1024;
/// The same for the JSON of version 1.
const LARGEST_JSON: usize = 4 * 1024 * 1024;

/// Why a link did not become a plan.
#[derive(Debug, thiserror::Error)]
pub enum LinkError {
    /// Nothing after the `#` that this program wrote.
    #[error("this link holds no house")]
    NoHouse,
    /// Cut short or changed on its way, as mail programs do with long links.
    #[error("this link is damaged or was cut short on its way: ask for it again, or for the house file")]
    Damaged,
    /// Of a newer version.
    #[error("this link was made by a newer version ({found}); this one reads up to {newest}: ask for the house file")]
    TooNew {
        /// Its version.
        found: u8,
        /// What this program reads.
        newest: u8,
    },
    /// It unpacks, but to no sound house.
    #[error(transparent)]
    Load(#[from] LoadError),
}

/// A link, and what of the house is not in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    /// The part of an address after the `#`.
    pub part: String,
    /// What it leaves out.
    pub left_out: LeftOut,
}

/// What a link leaves out of a house.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize)]
pub struct LeftOut {
    /// How many photos.
    pub photos: usize,
    /// How many bytes they have.
    pub photo_bytes: usize,
}

impl Plan {
    /// The link that carries this plan: all of it but photos, which are too large for mail.
    #[must_use]
    pub fn link(&self) -> Link {
        let mut bytes = vec![VERSION];
        bytes.extend(compress_to_vec(&pack::pack(&self.file_for_link()), 10));
        bytes.extend(adler2::adler32_slice(&bytes).to_le_bytes());
        let photos = || self.levels.iter().flat_map(|level| &level.observations).map(|it| it.photo.len());
        let left_out = LeftOut { photos: photos().filter(|bytes| *bytes > 0).count(), photo_bytes: photos().sum() };
        Link { part: format!("{PREFIX}{}", URL_SAFE_NO_PAD.encode(bytes)), left_out }
    }

    /// The part of an address after the `#` that carries this plan.
    #[must_use]
    pub fn to_link(&self) -> String {
        self.link().part
    }

    /// The plan that such a part carries; a leading `#` is passed over.
    pub fn from_link(part: &str) -> Result<Self, LinkError> {
        let part = part.trim().trim_start_matches('#');
        let packed = part.strip_prefix(PREFIX).filter(|rest| !rest.is_empty()).ok_or(LinkError::NoHouse)?;
        if packed.len() > LONGEST {
            return Err(LinkError::Damaged);
        }
        let bytes = URL_SAFE_NO_PAD.decode(packed).map_err(|_| LinkError::Damaged)?;
        let json = if bytes.first() == Some(&ZLIB) {
            let json = decompress_to_vec_zlib_with_limit(&bytes, LARGEST_JSON).map_err(|_| LinkError::Damaged)?;
            String::from_utf8(json).map_err(|_| LinkError::Damaged)?
        } else {
            unpacked(&bytes)?
        };
        Ok(Self::from_json(&json)?)
    }
}

/// The house file in a link of version 2 or later.
fn unpacked(bytes: &[u8]) -> Result<String, LinkError> {
    let (rest, sum) = bytes.split_last_chunk::<4>().ok_or(LinkError::Damaged)?;
    if adler2::adler32_slice(rest) != u32::from_le_bytes(*sum) {
        return Err(LinkError::Damaged);
    }
    let (version, packed) = rest.split_first().ok_or(LinkError::Damaged)?;
    match *version {
        VERSION => {}
        found @ 3.. => return Err(LinkError::TooNew { found, newest: VERSION }),
        _ => return Err(LinkError::Damaged),
    }
    let packed = decompress_to_vec_with_limit(packed, LARGEST).map_err(|_| LinkError::Damaged)?;
    Ok(pack::unpack(&packed).ok_or(LinkError::Damaged)?.to_string())
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
    fn a_link_with_any_letter_changed_is_refused() {
        let link = Plan::new("Hill house").to_link();
        for at in PREFIX.len()..link.len() {
            for other in ["A", "z", "-"].into_iter().filter(|other| !link[at..].starts_with(other)) {
                let changed = format!("{}{other}{}", &link[..at], &link[at + 1..]);
                let error = Plan::from_link(&changed).expect_err("changed");
                assert!(matches!(error, LinkError::Damaged), "{at} {other}: {error}");
            }
        }
    }

    fn of_bytes(mut bytes: Vec<u8>) -> Result<Plan, LinkError> {
        bytes.extend(adler2::adler32_slice(&bytes).to_le_bytes());
        Plan::from_link(&format!("{PREFIX}{}", URL_SAFE_NO_PAD.encode(bytes)))
    }

    #[test]
    fn a_link_of_a_newer_version_is_named_as_such() {
        let found = of_bytes(vec![3, 1, 2, 3]);
        assert!(matches!(found, Err(LinkError::TooNew { found: 3, newest: VERSION })), "{found:?}");
    }

    #[test]
    fn a_link_that_unpacks_without_end_is_refused() {
        let mut bomb = vec![VERSION];
        bomb.extend(compress_to_vec(&vec![0; 2 * LARGEST], 9));
        assert!(matches!(of_bytes(bomb), Err(LinkError::Damaged)));
        let bomb = miniz_oxide::deflate::compress_to_vec_zlib(&vec![b' '; 2 * LARGEST_JSON], 9);
        let link = format!("{PREFIX}{}", URL_SAFE_NO_PAD.encode(bomb));
        assert!(matches!(Plan::from_link(&link), Err(LinkError::Damaged)));
    }
}
