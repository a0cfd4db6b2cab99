//! Photos: kept once however often a plan is copied, and in a file apart from what they show.

use core::ops::Deref;
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::Level;

/// A photo as a `data:image/` address; none if it is empty. Copies of it share their text.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(from = "String", into = "String")]
#[cfg_attr(feature = "schema", schemars(with = "String"))]
pub struct Photo(Option<Arc<str>>);

impl Deref for Photo {
    type Target = str;

    fn deref(&self) -> &str {
        self.0.as_deref().unwrap_or_default()
    }
}

impl From<&str> for Photo {
    fn from(text: &str) -> Self {
        Self((!text.is_empty()).then(|| text.into()))
    }
}

impl From<String> for Photo {
    fn from(text: String) -> Self {
        Self::from(text.as_str())
    }
}

impl From<Photo> for String {
    fn from(photo: Photo) -> Self {
        photo.deref().to_owned()
    }
}

/// A photo of a house file, under a key that the things seen name.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PhotoPart {
    /// What it is named by in the file: `p1`.
    pub key: String,
    /// The picture, as a `data:image/` address.
    pub image: Photo,
}

/// Takes the photos out of levels, each once, and leaves their keys.
pub(super) fn take_out(levels: &mut [Level]) -> Vec<PhotoPart> {
    let mut parts: Vec<PhotoPart> = Vec::new();
    for photo in levels.iter_mut().flat_map(|level| &mut level.observations).map(|it| &mut it.photo) {
        if photo.is_empty() {
            continue;
        }
        let known = parts.iter().find(|part| part.image == *photo).map(|part| part.key.clone());
        let key = known.unwrap_or_else(|| {
            let key = format!("p{}", parts.len() + 1);
            parts.push(PhotoPart { key: key.clone(), image: photo.clone() });
            key
        });
        *photo = Photo::from(key);
    }
    parts
}

/// Puts photos where their keys stand; files of version 1 have them there already.
pub(super) fn put_in(levels: &mut [Level], parts: &[PhotoPart]) {
    for photo in levels.iter_mut().flat_map(|level| &mut level.observations).map(|it| &mut it.photo) {
        if let Some(part) = parts.iter().find(|part| !photo.is_empty() && *part.key == **photo) {
            *photo = part.image.clone();
        }
    }
}
