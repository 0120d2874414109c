//! Labels of a scenario inside a sentence.

/// Words that name a kind of thing: a label that ends in one takes an article, as "the carrier";
/// any other is a name and stays as its author wrote it, as "Carrier 2".
const KINDS: &str = " annulus axle axles band brake carrier carriers case clutch countershaft crank \
    drum engine frame freewheel gear gears housing hub input layshaft motor output pair pinion \
    pinions planet planets ring rings row set shaft sprocket sun suns turbine wheel wheels ";

/// A label inside a sentence, with an article where it needs one.
pub fn noun(label: &str) -> String {
    let first = label.split(" + ").next().unwrap_or(label);
    let word = first.rsplit(' ').next().unwrap_or(first);
    let kind = format!(" {} ", word.to_ascii_lowercase());
    if !KINDS.contains(&kind) {
        return label.to_owned();
    }
    let mut letters = label.chars();
    match (letters.next(), letters.next()) {
        // A word in capitals keeps them.
        (Some(first), second) if second.is_none_or(|letter| !letter.is_ascii_uppercase()) => {
            format!(
                "the {}{}",
                first.to_ascii_lowercase(),
                &label[first.len_utf8()..]
            )
        }
        _ => format!("the {label}"),
    }
}

/// A sentence with its article, if it begins with one, in a capital. Names keep their case.
pub(super) fn begun(sentence: String) -> String {
    match sentence.strip_prefix("the ") {
        Some(rest) => format!("The {rest}"),
        None => sentence,
    }
}

/// Names in a sentence: `A`, `A and B`, `A, B and C`. Names that hold a comma or an "and" of their
/// own are parted by semicolons, so that "1st, held" does not read as two.
pub fn listed<S: AsRef<str>>(names: &[S]) -> String {
    joined(names, "and")
}

/// The same of a choice: `A, B or C`.
pub(super) fn one_of<S: AsRef<str>>(names: &[S]) -> String {
    joined(names, "or")
}

fn joined<S: AsRef<str>>(names: &[S], word: &str) -> String {
    let [most @ .., last] = names else {
        return String::new();
    };
    let last = last.as_ref();
    if most.is_empty() {
        return last.to_owned();
    }
    let several = |name: &S| {
        [",", " and "]
            .iter()
            .any(|sign| name.as_ref().contains(sign))
    };
    let [between, end] = if names.iter().any(several) {
        ["; ", ";"]
    } else {
        [", ", ""]
    };
    let most: Vec<&str> = most.iter().map(AsRef::as_ref).collect();
    format!("{}{end} {word} {last}", most.join(between))
}
