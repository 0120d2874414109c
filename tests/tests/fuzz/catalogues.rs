//! Catalogues that somebody has spoilt: what is said from one may be wrong, but it is said.

use levertrain_core::words::Catalogue;
use levertrain_tests::files::root;
use levertrain_tests::generate::settings;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::Index;

/// Marks that the reader stumbles over, if any.
const MARKS: [&str; 14] = [
    "{", "}", "{ ", " }", "$", "\"", "[", "]", "*", " ->", "\n", "#", " = ", "\u{e4}",
];

/// Says every message there was before.
fn say_all(catalogue: Catalogue, text: &str) {
    for line in text.lines() {
        let key = line.split(' ').next().unwrap_or_default();
        let _ = catalogue.write(key, 2, &[("set", "Set 1"), ("way", "opposite")]);
    }
}

proptest! {
    #![proptest_config(settings(100))]

    #[test]
    fn a_spoilt_catalogue_is_spoken_all_the_same(
        changes in vec((any::<Index>(), any::<Index>(), prop::sample::select(&MARKS[..])), 1..20),
        end in any::<Index>(),
    ) {
        let text = std::fs::read_to_string(root().join("core/words/en.ftl"));
        let text = text.map_err(|error| TestCaseError::fail(error.to_string()))?;
        let mut letters: Vec<String> = text.chars().map(String::from).collect();
        for (at, mark_at, mark) in changes {
            let (at, mark_at) = (at.index(letters.len()), mark_at.index(letters.len()));
            letters[at] = String::new();
            letters[mark_at] += mark;
        }
        letters.truncate(end.index(letters.len()));
        let spoilt: &str = letters.concat().leak();
        say_all(Catalogue::of(spoilt), &text);
    }
}

#[test]
fn a_catalogue_without_end_is_read_to_its_end() {
    for part in [
        "a = { $a -> [x] ",
        "{ $a -> *[x] { ",
        "{",
        "a = {\"",
        "\u{e4} = {",
    ] {
        let deep: &str = format!("a = x{}", part.repeat(100_000)).leak();
        let catalogue = Catalogue::of(deep);
        let _ = catalogue.write("a", 1, &[("a", "x")]);
    }
}

#[test]
fn what_is_not_there_is_told_by_its_name() {
    let catalogue = Catalogue::of("# Words\n\nb = one\nc = { $who } and { $count }\na = two\n");
    assert_eq!(catalogue.plain("a"), "two");
    assert_eq!(catalogue.plain("b"), "one");
    for key in ["", "aa", "{", "Words", "# Words"] {
        assert_eq!(catalogue.plain(key), key);
        assert_eq!(catalogue.write(key, 1, &[]), key);
    }
    assert_eq!(catalogue.write("c", 7, &[]), "{$who} and 7");
}

/// A language is spoken in a thread: another one goes on in its own.
#[test]
fn a_thread_speaks_what_it_was_told_to() -> Result<(), Box<dyn std::any::Any + Send>> {
    let before = Catalogue::spoken().plain("housing");
    let other = std::thread::spawn(|| {
        Catalogue::of("housing = Geh\u{e4}use\n").speak();
        Catalogue::spoken().plain("housing")
    });
    assert_eq!(other.join()?, "Geh\u{e4}use");
    assert_eq!(Catalogue::spoken().plain("housing"), before);
    assert_eq!(before, "Housing");
    Ok(())
}
