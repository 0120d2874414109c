//! JSON text read into values.
//!
//! Written out: a general reader weighs four times as much of an engine, and says less of what is
//! wrong. Tests compare it with one.

use num_bigint::BigUint;
use num_traits::ToPrimitive;

use super::value::Value;

/// Most lists and objects within each other; no scenario needs half of them.
pub(super) const MOST_LEVELS: usize = 16;

/// The fields whose values stay the text that they are, read for mistakes in their JSON alone: what they say is understood
/// where it is used, by [`strict`](super::strict) once more. So whatever stands in them is kept to the letter, and an
/// engine that only passes them on need not be able to write values.
const KEPT: [&str; 3] = ["dynamics", "vehicle", "sources"];

/// Why reading stopped, and how many bytes had been taken or looked at.
#[derive(Debug)]
pub(super) struct Stop {
    pub(super) at: usize,
    pub(super) why: Why,
}

#[derive(Debug, PartialEq)]
pub(super) enum Why {
    /// The text ends too early.
    Ends,
    /// It is not JSON.
    NotJson,
    /// A key stands twice in an object.
    Twice(String),
    /// More than [`MOST_LEVELS`].
    TooDeep,
}

/// Reads a text as one value.
pub(super) fn read(text: &str) -> Result<Value, Stop> {
    let mut reader = Reader { text, at: 0 };
    let value = reader.value(0)?;
    match reader.after_blanks() {
        None => Ok(value),
        Some(_) => Err(reader.unexpected()),
    }
}

/// What goes through a text, and how many of its bytes are taken.
pub(super) struct Reader<'t> {
    pub(super) text: &'t str,
    pub(super) at: usize,
}

impl Reader<'_> {
    fn peek(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    fn next(&mut self) -> Option<u8> {
        let next = self.peek();
        self.at += usize::from(next.is_some());
        next
    }

    /// What comes after white space.
    pub(super) fn after_blanks(&mut self) -> Option<u8> {
        while matches!(self.peek(), Some(b' ' | b'\n' | b'\t' | b'\r')) {
            self.at += 1;
        }
        self.peek()
    }

    fn stop(&self, why: Why) -> Stop {
        Stop { at: self.at, why }
    }

    /// What was taken last is not JSON.
    fn wrong(&self) -> Stop {
        self.stop(Why::NotJson)
    }

    /// What comes next is not JSON, or does not come.
    fn unexpected(&mut self) -> Stop {
        match self.next() {
            Some(_) => self.wrong(),
            None => self.stop(Why::Ends),
        }
    }

    pub(super) fn value(&mut self, level: usize) -> Result<Value, Stop> {
        match self.after_blanks() {
            Some(b'n') => self.word("null", Value::Null),
            Some(b't') => self.word("true", Value::Bool(true)),
            Some(b'f') => self.word("false", Value::Bool(false)),
            Some(b'"') => self.string().map(Value::Text),
            Some(b'-' | b'0'..=b'9') => self.number(),
            Some(b'[' | b'{') if level == MOST_LEVELS => {
                self.at += 1;
                Err(self.stop(Why::TooDeep))
            }
            Some(b'[') => self.list(level + 1),
            Some(b'{') => self.object(level + 1),
            _ => Err(self.unexpected()),
        }
    }

    fn word(&mut self, word: &str, value: Value) -> Result<Value, Stop> {
        for letter in word.bytes() {
            if self.peek() != Some(letter) {
                return Err(self.unexpected());
            }
            self.at += 1;
        }
        Ok(value)
    }

    fn list(&mut self, level: usize) -> Result<Value, Stop> {
        self.at += 1;
        let mut items = Vec::new();
        if self.after_blanks() == Some(b']') {
            self.at += 1;
            return Ok(Value::List(items));
        }
        loop {
            items.push(self.value(level)?);
            if self.goes_on(b']')? {
                return Ok(Value::List(items));
            }
        }
    }

    fn object(&mut self, level: usize) -> Result<Value, Stop> {
        self.at += 1;
        let mut fields: Vec<(String, Value)> = Vec::new();
        if self.after_blanks() == Some(b'}') {
            self.at += 1;
            return Ok(Value::Object(fields));
        }
        loop {
            if self.after_blanks() != Some(b'"') {
                return Err(self.unexpected());
            }
            let key = self.string()?;
            if fields.iter().any(|(known, _)| *known == key) {
                return Err(self.stop(Why::Twice(key)));
            }
            if self.after_blanks() != Some(b':') {
                return Err(self.unexpected());
            }
            self.at += 1;
            let begin = self.at;
            let mut value = self.value(level)?;
            if KEPT.contains(&&*key) {
                let text = self.text.get(begin..self.at).unwrap_or_default();
                value = Value::Text(text.to_owned());
            }
            fields.push((key, value));
            if self.goes_on(b'}')? {
                return Ok(Value::Object(fields));
            }
        }
    }

    /// Takes the comma before another entry, or the end: which of both.
    pub(super) fn goes_on(&mut self, end: u8) -> Result<bool, Stop> {
        let next = self.after_blanks();
        if next != Some(b',') && next != Some(end) {
            return Err(self.unexpected());
        }
        self.at += 1;
        Ok(next == Some(end))
    }

    /// A string, at its first quote.
    pub(super) fn string(&mut self) -> Result<String, Stop> {
        self.at += 1;
        let mut string = String::new();
        let mut start = self.at;
        loop {
            let next = self.peek();
            if !matches!(next, None | Some(b'"' | b'\\' | 0..b' ')) {
                self.at += 1;
                continue;
            }
            string.push_str(self.text.get(start..self.at).unwrap_or_default());
            match next {
                Some(b'"') => {
                    self.at += 1;
                    return Ok(string);
                }
                Some(b'\\') => {
                    self.at += 1;
                    string.push(self.escaped()?);
                    start = self.at;
                }
                _ => return Err(self.unexpected()),
            }
        }
    }

    /// The character that an escape stands for, after its backslash.
    fn escaped(&mut self) -> Result<char, Stop> {
        Ok(match self.peek() {
            Some(sign @ (b'"' | b'\\' | b'/')) => {
                self.at += 1;
                char::from(sign)
            }
            Some(b'b') => self.taken('\u{8}'),
            Some(b'f') => self.taken('\u{c}'),
            Some(b'n') => self.taken('\n'),
            Some(b'r') => self.taken('\r'),
            Some(b't') => self.taken('\t'),
            Some(b'u') => {
                self.at += 1;
                let mut code = self.four_digits()?;
                // Two that belong together are one character.
                if matches!(code, 0xd800..0xdc00) {
                    for sign in [b'\\', b'u'] {
                        if self.peek() != Some(sign) {
                            return Err(self.unexpected());
                        }
                        self.at += 1;
                    }
                    let low = self.four_digits()?;
                    if !matches!(low, 0xdc00..0xe000) {
                        return Err(self.wrong());
                    }
                    code = 0x1_0000 + ((code - 0xd800) << 10) + (low - 0xdc00);
                }
                char::from_u32(code).ok_or_else(|| self.wrong())?
            }
            _ => return Err(self.unexpected()),
        })
    }

    fn taken(&mut self, character: char) -> char {
        self.at += 1;
        character
    }

    fn four_digits(&mut self) -> Result<u32, Stop> {
        let digits = self.text.as_bytes().get(self.at..self.at + 4);
        let Some(digits) = digits else {
            self.at = self.text.len();
            return Err(self.stop(Why::Ends));
        };
        self.at += 4;
        let mut code = 0;
        for &digit in digits {
            let value = char::from(digit).to_digit(16).ok_or_else(|| self.wrong())?;
            code = code * 16 + value;
        }
        Ok(code)
    }

    /// A number: whole as long as it fits, else as near as its first digits come.
    fn number(&mut self) -> Result<Value, Stop> {
        let negative = self.peek() == Some(b'-');
        self.at += usize::from(negative);
        let first = self.at;
        let (mut digits, mut tens, mut whole) = (0_u64, 0_i32, true);
        while let Some(digit @ b'0'..=b'9') = self.peek() {
            // No number begins with a 0 but itself.
            if self.at == first + 1 && self.text.as_bytes().get(first) == Some(&b'0') {
                return Err(self.unexpected());
            }
            self.at += 1;
            if tens > 0 || !add_digit(&mut digits, digit) {
                whole = false;
                tens = tens.saturating_add(1);
            }
        }
        if self.at == first {
            return Err(self.unexpected());
        }
        if self.peek() == Some(b'.') {
            self.at += 1;
            whole = false;
            let point = self.at;
            let mut full = tens > 0;
            while let Some(digit @ b'0'..=b'9') = self.peek() {
                self.at += 1;
                full = full || !add_digit(&mut digits, digit);
                tens -= i32::from(!full);
            }
            if self.at == point {
                return Err(self.unexpected());
            }
        }
        if matches!(self.peek(), Some(b'e' | b'E')) {
            self.at += 1;
            whole = false;
            let down = self.peek() == Some(b'-');
            self.at += usize::from(matches!(self.peek(), Some(b'+' | b'-')));
            if !matches!(self.peek(), Some(b'0'..=b'9')) {
                return Err(self.unexpected());
            }
            let mut exponent = 0_i32;
            while let Some(digit @ b'0'..=b'9') = self.peek() {
                self.at += 1;
                exponent = exponent
                    .saturating_mul(10)
                    .saturating_add((digit - b'0').into());
            }
            let exponent = if down { -exponent } else { exponent };
            tens = tens.saturating_add(exponent);
        }
        if whole {
            if !negative {
                return Ok(Value::Whole(digits));
            }
            let below = (digits as i64).wrapping_neg();
            if below < 0 {
                return Ok(Value::Negative(below));
            }
        }
        let size = scaled(digits, tens);
        if size.is_infinite() {
            return Err(self.wrong());
        }
        Ok(Value::Number(if negative { -size } else { size }))
    }
}

/// Puts a digit behind others, unless they would no longer fit.
fn add_digit(digits: &mut u64, digit: u8) -> bool {
    let more = digits.checked_mul(10);
    let more = more.and_then(|tenfold| tenfold.checked_add((digit - b'0').into()));
    *digits = more.unwrap_or(*digits);
    more.is_some()
}

/// The `f64` nearest to a number times a power of ten, so that what is written with as many digits as
/// needed is read as it was.
fn scaled(digits: u64, tens: i32) -> f64 {
    // No `f64` is as far from 1 as twenty digits with these.
    const FAR: u32 = 400;
    // So many binary places of a quotient hold more than the 53 that count.
    const PLACES: u64 = 66;
    let far = tens.unsigned_abs();
    let number = BigUint::from(digits);
    match tens {
        _ if digits == 0 || (tens < 0 && far > FAR) => 0.0,
        _ if far > FAR => f64::INFINITY,
        0.. => nearest(&(number * BigUint::from(10_u8).pow(far))),
        _ => {
            let divisor = BigUint::from(10_u8).pow(far);
            let shift = PLACES + divisor.bits();
            let number = number << shift;
            let mut quotient = &number / &divisor;
            // Whether anything is left behind them decides where halves go.
            if &quotient * divisor != number {
                quotient |= BigUint::from(1_u8);
            }
            // In two steps: the smallest numbers are halved more often than one power of two can say.
            let half = shift / 2;
            let halved = |times: u64| 0.5_f64.powi(times as i32);
            nearest(&quotient) * halved(half) * halved(shift - half)
        }
    }
}

fn nearest(number: &BigUint) -> f64 {
    number.to_f64().unwrap_or(f64::INFINITY)
}
