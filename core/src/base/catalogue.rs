//! The sentences of one language, in the syntax of Project Fluent (projectfluent.org), and how one is
//! written from them.
//!
//! Read are messages, `{ $variable }`, `{ "text" }` and selections, by word, by exact number or by
//! plural category. Which catalogue is spoken is settled once for a thread, by whoever starts the
//! program: a page hands over that of its reader's language, so none is part of an engine. Programs
//! that are not told speak English. Whatever a catalogue holds, reading it never fails: what cannot
//! be found or read is told by its name.

use std::cell::Cell;

use super::characters::place_of;

/// The variables of a message, by name. What a message counts is handed over beside them: it is
/// written as `{ $count }`, and selects by number or by plural category.
pub type Values<'a> = &'a [(&'a str, &'a str)];

/// All messages of a language.
#[derive(Debug, Clone, Copy)]
pub struct Catalogue {
    /// By their keys, in order.
    messages: &'static [(&'static str, &'static str)],
    /// The plural category of a number.
    plural: fn(usize) -> &'static str,
}

thread_local! {
    static SPOKEN: Cell<Option<Catalogue>> = const { Cell::new(None) };
}

/// Selections within each other, far more than a translator could keep in mind.
const DEEPEST: u32 = 16;

impl Catalogue {
    /// Reads the text of a catalogue. It stays for as long as the program runs, as all that is said
    /// comes from it.
    pub fn of(text: &'static str) -> Self {
        let mut messages = Vec::new();
        let mut rest = text;
        while let Some(message) = next_message(&mut rest) {
            let parts = place_of(message, " = ").and_then(|end| message.split_at_checked(end));
            if let Some((key, text)) = parts {
                let text = text.strip_prefix(" = ").unwrap_or_default();
                let place = messages.partition_point(|&(other, _)| other < key);
                messages.insert(place, (key, text));
            }
        }
        Self {
            messages: messages.leak(),
            plural: english_plural,
        }
    }

    /// What is spoken in this thread.
    pub fn spoken() -> Self {
        SPOKEN.get().unwrap_or_else(usual)
    }

    /// Has it spoken in this thread from now on.
    pub fn speak(self) {
        SPOKEN.set(Some(self));
    }

    /// A message as it stands; its key where there is none.
    pub fn plain<'a>(&self, key: &'a str) -> &'a str {
        self.message(key).unwrap_or(key)
    }

    /// A message with its variables and its count put in; its key where there is none.
    pub fn write(&self, key: &str, count: usize, values: Values<'_>) -> String {
        let Some(text) = self.message(key) else {
            return key.to_owned();
        };
        let mut writer = Writer {
            text,
            at: 0,
            depth: 0,
            count,
            values,
            plural: (self.plural)(count),
            written: String::new(),
        };
        writer.pattern(false);
        writer.written
    }

    fn message(&self, key: &str) -> Option<&'static str> {
        let found = self
            .messages
            .binary_search_by(|(other, _)| (*other).cmp(key));
        Some(self.messages.get(found.ok()?)?.1)
    }
}

/// English, which German shares it with.
const fn english_plural(count: usize) -> &'static str {
    if count == 1 { "one" } else { "other" }
}

/// The catalogues of programs.
#[cfg(not(target_arch = "wasm32"))]
pub mod built_in {
    use std::sync::LazyLock;

    use super::Catalogue;

    static ENGLISH: LazyLock<Catalogue> =
        LazyLock::new(|| Catalogue::of(include_str!("../../words/en.ftl")));
    static GERMAN: LazyLock<Catalogue> =
        LazyLock::new(|| Catalogue::of(include_str!("../../words/de.ftl")));

    /// The codes of all languages; the first is the one that is spoken unless another is asked for.
    pub const LANGUAGES: [&str; 2] = ["en", "de"];

    impl Catalogue {
        /// That of a language, by its code.
        pub fn of_language(code: &str) -> Option<Self> {
            match code {
                "en" => Some(*ENGLISH),
                "de" => Some(*GERMAN),
                _ => None,
            }
        }
    }
}

#[cfg(not(target_arch = "wasm32"))]
fn usual() -> Catalogue {
    Catalogue::of_language("en").unwrap_or(NONE)
}

/// Says everything by its name.
const NONE: Catalogue = Catalogue {
    messages: &[],
    plural: english_plural,
};

/// An engine is told what to speak.
#[cfg(target_arch = "wasm32")]
const fn usual() -> Catalogue {
    NONE
}

/// Takes a message off, up to the end of a line outside of all braces, or a line that is none.
fn next_message(rest: &mut &'static str) -> Option<&'static str> {
    if rest.starts_with('#') {
        let (comment, others) = rest.split_once('\n')?;
        *rest = others;
        return Some(comment);
    }
    let mut depth = 0_usize;
    for (at, letter) in rest.bytes().enumerate() {
        match letter {
            b'{' => depth += 1,
            b'}' => depth = depth.saturating_sub(1),
            b'\n' if depth == 0 => {
                let (message, others) = rest.split_at_checked(at + 1)?;
                *rest = others;
                return message.strip_suffix('\n');
            }
            _ => {}
        }
    }
    None
}

struct Writer<'a> {
    text: &'static str,
    at: usize,
    depth: u32,
    count: usize,
    values: Values<'a>,
    plural: &'static str,
    written: String,
}

impl Writer<'_> {
    /// Text and what stands in braces; of a variant, up to its line's end or the closing brace.
    fn pattern(&mut self, variant: bool) {
        loop {
            let text = self.until(if variant { b"{\n}" } else { b"{" });
            self.written.push_str(text);
            if self.next() != Some(b'{') {
                return;
            }
            self.at += 1;
            self.placeable();
        }
    }

    /// What stands in braces, the first of which is taken.
    fn placeable(&mut self) {
        self.blank();
        if self.next() == Some(b'"') {
            self.at += 1;
            let literal = self.until(b"\"");
            self.written.push_str(literal);
        } else {
            // Without the dollar sign.
            self.at += 1;
            let name = self.until(b" }");
            let known = self.values.iter().find(|(known, _)| *known == name);
            let value = known.map(|(_, value)| *value);
            self.blank();
            if self.next() == Some(b'-') {
                self.at += 2;
                self.depth += 1;
                if self.depth <= DEEPEST {
                    self.selection(value);
                }
                self.depth -= 1;
            } else if let Some(value) = value {
                self.written.push_str(value);
            } else if name == "count" {
                self.written.push_str(&self.count.to_string());
            } else {
                self.written.push_str("{$");
                self.written.push_str(name);
                self.written.push('}');
            }
        }
        self.until(b"}");
        self.at += 1;
    }

    /// The variants up to the brace: the first that fits is written, or else the default, which
    /// stands last.
    fn selection(&mut self, value: Option<&str>) {
        let mut written = false;
        loop {
            self.blank();
            let default = self.next() == Some(b'*');
            self.at += usize::from(default);
            if self.next() != Some(b'[') {
                return;
            }
            self.at += 1;
            let key = self.until(b"]");
            self.at += 1;
            self.blank();
            let fits = match value {
                Some(value) => value == key,
                None => key == self.plural || key == self.count.to_string(),
            };
            let before = self.written.len();
            self.pattern(true);
            if written || !(fits || default) {
                self.written.truncate(before);
            }
            written |= fits;
        }
    }

    fn next(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    fn blank(&mut self) {
        while matches!(self.next(), Some(b' ' | b'\n')) {
            self.at += 1;
        }
    }

    /// Up to one of these signs, which is left, or to the end.
    fn until(&mut self, signs: &[u8]) -> &'static str {
        let start = self.at;
        while self.next().is_some_and(|sign| !signs.contains(&sign)) {
            self.at += 1;
        }
        self.text.get(start..self.at).unwrap_or_default()
    }
}
