//! The sentences of one language, in the syntax of Project Fluent (projectfluent.org), and how one is
//! written from them.
//!
//! Read are messages, `{ $variable }`, `{ "text" }` and selections, by word, by exact number or by
//! plural category. A message is looked for where it stands in the text: that takes a few
//! microseconds, and nothing has to be read before.

/// The variables of a message, by name. What a message counts is handed over beside them: it is
/// written as `{ $count }`, and selects by number or by plural category.
pub type Values<'a> = &'a [(&'a str, &'a str)];

/// All messages of a language.
#[derive(Debug, Clone, Copy)]
pub struct Catalogue {
    text: &'static str,
    /// The plural category of a number.
    plural: fn(usize) -> &'static str,
}

impl Catalogue {
    /// The sentences in English.
    pub const ENGLISH: Self = Self {
        text: match str::from_utf8(&WITHOUT_COMMENTS) {
            Ok(text) => text,
            Err(_) => ENGLISH,
        },
        plural: |count| if count == 1 { "one" } else { "other" },
    };

    /// A message as it stands; empty where there is none.
    pub fn plain(&self, key: &str) -> &'static str {
        let mut rest = self.text;
        while let Some(message) = next_message(&mut rest) {
            let named = message.strip_prefix(key);
            if let Some(text) = named.and_then(|text| text.strip_prefix(" = ")) {
                return text;
            }
        }
        ""
    }

    /// A message with its variables and its count put in.
    pub fn write(&self, key: &str, count: usize, values: Values<'_>) -> String {
        let mut writer = Writer {
            text: self.plain(key),
            at: 0,
            count,
            values,
            plural: (self.plural)(count),
            written: String::new(),
        };
        writer.pattern(false);
        writer.written
    }
}

const ENGLISH: &str = include_str!("../../words/en.ftl");

/// The English messages alone: what is said to translators need not be sent to pages.
static WITHOUT_COMMENTS: [u8; messages(ENGLISH.as_bytes(), &mut [])] = {
    let mut kept = [0; messages(ENGLISH.as_bytes(), &mut [])];
    messages(ENGLISH.as_bytes(), &mut kept);
    kept
};

/// Copies all lines but empty ones and comments; how many bytes those are.
const fn messages(text: &[u8], into: &mut [u8]) -> usize {
    let (mut at, mut kept) = (0, 0);
    while at < text.len() {
        let is_kept = !matches!(text[at], b'#' | b'\n');
        loop {
            if is_kept {
                if kept < into.len() {
                    into[kept] = text[at];
                }
                kept += 1;
            }
            at += 1;
            if at >= text.len() || text[at - 1] == b'\n' {
                break;
            }
        }
    }
    kept
}

/// Takes a message off: up to the end of a line outside of all braces.
fn next_message(rest: &mut &'static str) -> Option<&'static str> {
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
                self.selection(value);
            } else if let Some(value) = value {
                self.written.push_str(value);
            } else {
                debug_assert!(name == "count", "{name}: {}", self.text);
                self.written.push_str(&self.count.to_string());
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
