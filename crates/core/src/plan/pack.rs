//! JSON in few bytes, for links: lists of objects by column, numbers as steps from one to the next, usual words by number.
//!
//! Knows no houses: what a file may hold a link may hold, so that both have one version and one migration. The list of
//! words is frozen; a longer one would be another version of the link.

use serde_json::{Map, Number, Value};

/// How many values a pack may hold: a few bytes can stand for many empty ones.
const MOST_VALUES: usize = 400_000;
/// How deep they may lie in each other.
const DEEPEST: usize = 32;
/// Up to this whole number every number of a file is exact.
const EXACT: f64 = 9_007_199_254_740_992.0;

/// Words that nearly every house holds. Never changed: links that people were sent name them by their places.
const WORDS: &str = "format joistwise_house version name note site levels ticks kept photos id kind height walls openings \
posts beams things footings fields floor_openings cuts boards roofs purlins observations a b at thickness side make gable \
top joints built studs truss_bearing layers wall offset width header first second jacks kings member set shape region along \
spacing use dead known corners ridge ridge_at form frame meets long_valley rise overhang ground_snow snow_edition exposure \
thermal importance roof_surface roof_live soil soil_class storey basement crawl_space attic outside inside stud masonry \
concrete no guessed stated tight gap bare not_seen lap run_through outline living sleeping attic_room attic_storage \
attic_bare deck garage measured seen told assumed unknown shed hip gambrel lower_run upper_rise ridge_board ridge_beam \
over_framed trusses metal_plates site_built inside_bearing webs whole cut door window passage there missing wood steel \
stud_pack pier dropped flush pad strip footing thickened_slab flat on_legs weight stands saw day photo joists_run \
joist_size joists_lap joists_end joists_hang joists_run_through sit_on_plate nothing_stands run_along no_strut in_line \
below strut_stands sag by drawing says age year 2x4 2x6 2x8 2x10 2x12 3-2x10 3-2x12 4x4 6x6 up_to2016 from2022 not_stated \
feet from to over front glass gable_dormer shed_dormer step task level end came done nothing away posts_between lumber \
species grade notch hole depth length diameter to_edge place edge rim blocking ledger usual first_floor second_floor \
third_floor covers valley bearing not_bearing later past_the_floor";

/// The format's own word has a space in it.
fn words() -> impl Iterator<Item = String> {
    WORDS.split(' ').map(|word| if word == "joistwise_house" { super::FORMAT.to_owned() } else { word.to_owned() })
}

const NULL: u8 = 0;
const FALSE: u8 = 1;
const TRUE: u8 = 2;
const NUMBER: u8 = 3;
const TEXT: u8 = 4;
const LIST: u8 = 5;
const OBJECT: u8 = 6;
/// Values of several kinds.
const MIXED: u8 = 7;

/// Whole numbers, sixteenths (of an inch), ten-thousandths; as text, where none of them is exact.
const SCALES: [f64; 3] = [1.0, 16.0, 10_000.0];
const AS_TEXT: u8 = 6;

const fn kind(value: &Value) -> u8 {
    match value {
        Value::Null => NULL,
        Value::Bool(false) => FALSE,
        Value::Bool(true) => TRUE,
        Value::Number(_) => NUMBER,
        Value::String(_) => TEXT,
        Value::Array(_) => LIST,
        Value::Object(_) => OBJECT,
    }
}

/// A value as bytes.
pub(super) fn pack(value: &Value) -> Vec<u8> {
    let mut packer = Packer { out: Vec::new(), words: words().collect() };
    packer.column(&[value]);
    packer.out
}

/// The value that such bytes stand for; none if they stand for none.
pub(super) fn unpack(bytes: &[u8]) -> Option<Value> {
    let mut unpacker = Unpacker { bytes, words: words().collect(), left: MOST_VALUES };
    let value = unpacker.column(1, 0)?.pop();
    if unpacker.bytes.is_empty() { value } else { None }
}

struct Packer {
    out: Vec<u8>,
    words: Vec<String>,
}

impl Packer {
    fn whole(&mut self, mut number: u64) {
        while let (low, rest @ 1..) = (number & 127, number >> 7) {
            self.out.push(low.to_le_bytes()[0] | 128);
            number = rest;
        }
        self.out.push((number & 127).to_le_bytes()[0]);
    }

    fn size(&mut self, size: usize) {
        self.whole(size as u64);
    }

    fn text(&mut self, text: &str) {
        if let Some(place) = self.words.iter().position(|word| word == text) {
            self.size(place + 1);
        } else {
            self.out.push(0);
            self.size(text.len());
            self.out.extend(text.as_bytes());
            self.words.push(text.to_owned());
        }
    }

    /// Values that stand at the same place of several objects or lists.
    fn column(&mut self, values: &[&Value]) {
        let Some(first) = values.first().map(|value| kind(value)) else { return };
        if values.iter().any(|value| kind(value) != first) {
            self.out.push(MIXED);
            self.out.extend(values.iter().map(|value| kind(value)));
            for one in NULL..=OBJECT {
                let same: Vec<&Value> = values.iter().copied().filter(|value| kind(value) == one).collect();
                self.same(one, &same);
            }
            return;
        }
        self.out.push(first);
        self.same(first, values);
    }

    /// Values of one kind.
    fn same(&mut self, kind: u8, values: &[&Value]) {
        match kind {
            NUMBER => self.numbers(values),
            TEXT => values.iter().filter_map(|value| value.as_str()).for_each(|text| self.text(text)),
            LIST => self.lists(&values.iter().filter_map(|value| value.as_array()).collect::<Vec<_>>()),
            OBJECT => self.table(&values.iter().filter_map(|value| value.as_object()).collect::<Vec<_>>()),
            _ => {}
        }
    }

    fn numbers(&mut self, values: &[&Value]) {
        if values.is_empty() {
            return;
        }
        for (scale, at) in SCALES.into_iter().zip(0_u8..) {
            let Some(numbers) = values.iter().map(|value| scaled(value, scale)).collect::<Option<Vec<i64>>>() else {
                continue;
            };
            let before = core::iter::once(0).chain(numbers.iter().copied());
            let steps: Vec<i64> = numbers.iter().zip(before).map(|(number, before)| number - before).collect();
            let (by_steps, numbers) = if length(&steps) < length(&numbers) { (1, steps) } else { (0, numbers) };
            self.out.push(2 * at + by_steps);
            numbers.iter().for_each(|number| self.whole(zigzag(*number)));
            return;
        }
        self.out.push(AS_TEXT);
        values.iter().for_each(|value| self.text(&value.to_string()));
    }

    fn lists(&mut self, lists: &[&Vec<Value>]) {
        let Some(count) = lists.first().map(|list| list.len()) else { return };
        let even = lists.iter().all(|list| list.len() == count);
        if even {
            self.size(2 * count + 1);
        } else {
            self.size(0);
            lists.iter().for_each(|list| self.size(list.len()));
        }
        if even && count <= 4 {
            for place in 0..count {
                self.column(&lists.iter().filter_map(|list| list.get(place)).collect::<Vec<_>>());
            }
        } else {
            self.column(&lists.iter().flat_map(|list| list.iter()).collect::<Vec<_>>());
        }
    }

    fn table(&mut self, rows: &[&Map<String, Value>]) {
        if rows.is_empty() {
            return;
        }
        let mut keys: Vec<&String> = Vec::new();
        for key in rows.iter().flat_map(|row| row.keys()) {
            if !keys.contains(&key) {
                keys.push(key);
            }
        }
        self.size(keys.len());
        for key in keys {
            self.text(key);
            let here: Vec<bool> = rows.iter().map(|row| row.contains_key(key)).collect();
            if here.iter().all(|it| *it) {
                self.out.push(1);
            } else {
                self.out.push(0);
                for eight in here.chunks(8) {
                    self.out.push(eight.iter().rev().fold(0, |bits, bit| bits << 1 | u8::from(*bit)));
                }
            }
            self.column(&rows.iter().filter_map(|row| row.get(key)).collect::<Vec<_>>());
        }
    }
}

/// How many bytes such numbers take.
fn length(numbers: &[i64]) -> u32 {
    numbers.iter().map(|number| (63 - (zigzag(*number) | 1).leading_zeros()) / 7 + 1).sum()
}

/// The number in whole parts of one, if that is exact.
fn scaled(value: &Value, scale: f64) -> Option<i64> {
    let number = value.as_f64()?;
    let parts = (number * scale).round();
    let exact = parts.abs() < EXACT && (parts / scale).total_cmp(&number).is_eq();
    #[expect(clippy::cast_possible_truncation, reason = "a whole number under 2 to the 53")]
    let parts = parts as i64;
    // A whole number that is too large for a decimal one is not what its decimal one says.
    let same = value.as_i64().is_none_or(|whole| scale > 1.0 || whole == parts) && (value.is_f64() || value.is_i64());
    (exact && same).then_some(parts)
}

const fn zigzag(number: i64) -> u64 {
    (number << 1 ^ number >> 63).cast_unsigned()
}

const fn unzigzag(number: u64) -> i64 {
    (number >> 1).cast_signed() ^ -(number & 1).cast_signed()
}

struct Unpacker<'a> {
    bytes: &'a [u8],
    words: Vec<String>,
    /// How many values may still come.
    left: usize,
}

impl Unpacker<'_> {
    fn byte(&mut self) -> Option<u8> {
        let (first, rest) = self.bytes.split_first()?;
        self.bytes = rest;
        Some(*first)
    }

    fn whole(&mut self) -> Option<u64> {
        let mut number = 0;
        for at in 0..10_u32 {
            let byte = self.byte()?;
            number |= u64::from(byte & 127).checked_shl(7 * at)?;
            if byte < 128 {
                return Some(number);
            }
        }
        None
    }

    fn size(&mut self) -> Option<usize> {
        usize::try_from(self.whole()?).ok()
    }

    fn text(&mut self) -> Option<String> {
        if let Some(place) = self.size()?.checked_sub(1) {
            return self.words.get(place).cloned();
        }
        let length = self.size()?;
        let (text, rest) = self.bytes.split_at_checked(length)?;
        self.bytes = rest;
        let text = core::str::from_utf8(text).ok()?.to_owned();
        self.words.push(text.clone());
        Some(text)
    }

    fn column(&mut self, count: usize, depth: usize) -> Option<Vec<Value>> {
        if count == 0 {
            return Some(Vec::new());
        }
        self.left = self.left.checked_sub(count).filter(|_| depth < DEEPEST)?;
        let first = self.byte()?;
        if first != MIXED {
            return self.same(first, count, depth);
        }
        let (kinds, rest) = self.bytes.split_at_checked(count)?;
        let kinds = kinds.to_vec();
        self.bytes = rest;
        let mut columns = Vec::new();
        for one in NULL..=OBJECT {
            let count = kinds.iter().filter(|kind| **kind == one).count();
            columns.push(self.same(one, count, depth)?.into_iter());
        }
        kinds.iter().map(|kind| columns.get_mut(usize::from(*kind))?.next()).collect()
    }

    fn same(&mut self, kind: u8, count: usize, depth: usize) -> Option<Vec<Value>> {
        if count == 0 {
            return Some(Vec::new());
        }
        match kind {
            NULL => Some(vec![Value::Null; count]),
            FALSE | TRUE => Some(vec![Value::Bool(kind == TRUE); count]),
            NUMBER => self.numbers(count),
            TEXT => (0..count).map(|_| self.text().map(Value::String)).collect(),
            LIST => self.lists(count, depth),
            OBJECT => self.table(count, depth),
            _ => None,
        }
    }

    fn numbers(&mut self, count: usize) -> Option<Vec<Value>> {
        let how = self.byte()?;
        if how == AS_TEXT {
            return (0..count).map(|_| self.text()?.parse::<Number>().ok().map(Value::Number)).collect();
        }
        let (scale, by_steps) = (*SCALES.get(usize::from(how / 2))?, how % 2 == 1);
        let mut before: i64 = 0;
        let mut one = || {
            let number = unzigzag(self.whole()?);
            before = if by_steps { before.checked_add(number)? } else { number };
            number_of(before, scale).map(Value::Number)
        };
        (0..count).map(|_| one()).collect()
    }

    fn lists(&mut self, count: usize, depth: usize) -> Option<Vec<Value>> {
        let size = self.size()?;
        let sizes = if size == 0 {
            // A byte each at the least, so that there are no more of them than bytes.
            (self.bytes.len() >= count).then_some(())?;
            (0..count).map(|_| self.size()).collect::<Option<Vec<usize>>>()?
        } else {
            (size % 2 == 1).then(|| vec![size / 2; count])?
        };
        if size != 0 && size / 2 <= 4 {
            let mut lists = vec![Vec::with_capacity(size / 2); count];
            for _ in 0..size / 2 {
                let column = self.column(count, depth + 1)?;
                lists.iter_mut().zip(column).for_each(|(list, value)| list.push(value));
            }
            return Some(lists.into_iter().map(Value::Array).collect());
        }
        let all = sizes.iter().try_fold(0_usize, |all, size| all.checked_add(*size))?;
        let mut values = self.column(all, depth + 1)?.into_iter();
        Some(sizes.iter().map(|size| Value::Array(values.by_ref().take(*size).collect())).collect())
    }

    fn table(&mut self, count: usize, depth: usize) -> Option<Vec<Value>> {
        let mut rows = vec![Map::new(); count];
        for _ in 0..self.size()? {
            let key = self.text()?;
            let mut here = vec![true; count];
            if self.byte()? == 0 {
                for eight in here.chunks_mut(8) {
                    let bits = self.byte()?;
                    eight.iter_mut().zip(0_u32..).for_each(|(bit, at)| *bit = bits >> at & 1 == 1);
                }
            }
            let column = self.column(here.iter().filter(|it| **it).count(), depth + 1)?;
            let rows = rows.iter_mut().zip(here).filter_map(|(row, here)| here.then_some(row));
            rows.zip(column).for_each(|(row, value)| drop(row.insert(key.clone(), value)));
        }
        Some(rows.into_iter().map(Value::Object).collect())
    }
}

/// So many parts of one as a number: a whole one where it is one.
fn number_of(parts: i64, scale: f64) -> Option<Number> {
    #[expect(clippy::cast_precision_loss, reason = "what was packed is under 2 to the 53")]
    let number = parts as f64 / scale;
    if scale <= 1.0 || number.fract().abs() <= 0.0 {
        #[expect(clippy::cast_possible_truncation, reason = "whole, and no larger than what it was made of")]
        return Some(Number::from(number as i64));
    }
    Number::from_f64(number)
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn any_json_comes_back_from_its_pack() {
        for value in [
            json!(null),
            json!([1, 2.5, -3, 0.0625, 1e300, 0.1, 9_007_199_254_740_993_u64, u64::MAX, i64::MIN, 1_234.567_8]),
            json!([[1, 2], [3, 4], [5]]),
            json!([[], [], []]),
            json!([[1, 2, 3, 4, 5, 6], [1, 2, 3, 4, 5, 6]]),
            json!({"format": "joistwise house", "walls": [{"id": 1, "a": [0, 0]}, {"id": 2, "b": null}, {}]}),
            json!([true, false, null, "", "é", {"x": [[[[]]]]}]),
            json!([true, true]),
        ] {
            assert_eq!(unpack(&pack(&value)), Some(value));
        }
    }

    #[test]
    fn a_few_bytes_do_not_stand_for_many_values() {
        // A million lists of nothing; then a list in a list, and so on.
        assert_eq!(unpack(&[LIST, 0x81, 0x89, 0x7a, NULL]), None);
        assert_eq!(unpack(&[LIST, 3].repeat(40)), None);
        assert_eq!(unpack(&[OBJECT, 1, 0, 200]), None);
        assert_eq!(unpack(&[]), None);
    }
}
