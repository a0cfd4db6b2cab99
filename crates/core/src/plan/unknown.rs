//! What a house file holds that this version does not know: kept with the house, and written back where it stood.
//!
//! Of the house itself, of the site, of each level and of each part, and of the objects in those. What lies in a list
//! without numbers (a tick, a kept study, an opening in a roof, a corner) is not kept.

use serde_json::{Map, Value};

use super::{Level, Plan};
use crate::order::InOrder as _;

type Fields = Map<String, Value>;

/// Fields that this version does not know.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Unknown {
    house: Fields,
    /// Of levels and parts, by number.
    parts: Vec<(u32, Fields)>,
}

/// What a newer version would put elsewhere, and so is not carried along.
const OWN: [&str; 3] = ["format", "version", "photos"];

impl Unknown {
    /// What stands in a file and is not written again.
    pub(super) fn of(file: &Value, known: &Value) -> Self {
        let (Some(file), Some(known)) = (file.as_object(), known.as_object()) else { return Self::default() };
        let mut house = rest(file, known);
        OWN.iter().for_each(|key| drop(house.remove(*key)));
        let mut parts = Vec::new();
        for (level, known) in pairs(file.get("levels"), known.get("levels")) {
            add(&mut parts, level, known);
            for (list, known) in known.iter() {
                for (part, known) in pairs(level.get(list), Some(known)) {
                    add(&mut parts, part, known);
                }
            }
        }
        Self { house, parts }
    }

    /// Whether there is nothing of the kind.
    pub(super) fn is_empty(&self) -> bool {
        self.house.is_empty() && self.parts.is_empty()
    }

    /// How many letters it has.
    pub(super) fn letters(&self) -> usize {
        let of = |fields: &Fields| Value::Object(fields.clone()).to_string().len();
        if self.is_empty() {
            0
        } else {
            of(&self.house) + self.parts.iter().map(|(_, fields)| of(fields)).sum::<usize>()
        }
    }

    /// Puts it back into a file, where nothing of that name stands.
    pub(super) fn write_into(&self, file: &mut Value) {
        let Some(file) = file.as_object_mut() else { return };
        put(file, &self.house);
        for level in objects(file.get_mut("levels")) {
            self.put_part(level);
            for (_, list) in level.iter_mut() {
                objects(Some(list)).for_each(|part| self.put_part(part));
            }
        }
    }

    fn put_part(&self, part: &mut Fields) {
        let number = number(part);
        if let Some((_, fields)) = self.parts.iter().find(|it| Some(it.0) == number) {
            put(part, fields);
        }
    }
}

impl Plan {
    /// Parts that are gone take along what was not known of them.
    pub(super) fn drop_unknown(&mut self) {
        if !self.unknown.parts.is_empty() {
            let mut numbers: Vec<u32> = self.levels.iter().flat_map(Level::numbers).collect();
            numbers.order();
            self.unknown.parts.retain(|(number, _)| numbers.binary_search(number).is_ok());
        }
    }
}

fn number(part: &Fields) -> Option<u32> {
    part.get("id")?.as_u64().and_then(|number| u32::try_from(number).ok())
}

fn objects(list: Option<&mut Value>) -> impl Iterator<Item = &mut Fields> {
    list.and_then(Value::as_array_mut).into_iter().flatten().filter_map(Value::as_object_mut)
}

/// Objects of two lists that have the same number.
fn pairs<'a>(file: Option<&'a Value>, known: Option<&'a Value>) -> Vec<(&'a Fields, &'a Fields)> {
    let of =
        |list: Option<&'a Value>| list.and_then(Value::as_array).into_iter().flatten().filter_map(Value::as_object);
    let mut known: Vec<(u32, &Fields)> = of(known).filter_map(|it| Some((number(it)?, it))).collect();
    known.order_by_key(|it| it.0);
    let twin = |part: &'a Fields| {
        let at = known.binary_search_by_key(&number(part)?, |it| it.0).ok()?;
        Some((part, known.get(at)?.1))
    };
    of(file).filter_map(twin).collect()
}

fn add(parts: &mut Vec<(u32, Fields)>, part: &Fields, known: &Fields) {
    let rest = rest(part, known);
    if let Some(number) = number(part).filter(|_| !rest.is_empty()) {
        parts.push((number, rest));
    }
}

/// The fields of an object that another has not, and of the objects in it likewise.
fn rest(file: &Fields, known: &Fields) -> Fields {
    let mut rest_of = Fields::new();
    for (key, value) in file {
        match (value, known.get(key)) {
            (Value::Null, _) => {}
            (value, None) => drop(rest_of.insert(key.clone(), value.clone())),
            (Value::Object(value), Some(Value::Object(known))) => {
                let inner = rest(value, known);
                if !inner.is_empty() {
                    rest_of.insert(key.clone(), Value::Object(inner));
                }
            }
            _ => {}
        }
    }
    rest_of
}

/// Adds fields that an object has not.
fn put(into: &mut Fields, fields: &Fields) {
    for (key, value) in fields {
        match (into.get_mut(key), value) {
            (None, value) => drop(into.insert(key.clone(), value.clone())),
            (Some(Value::Object(into)), Value::Object(fields)) => put(into, fields),
            _ => {}
        }
    }
}
