//! Drawings taken away as files.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use serde::Deserialize;
use serde_json::{Value, json};

use crate::by_hand::{self, SECOND};

/// What a file taken away says of itself.
#[derive(Debug, Deserialize)]
struct Picture {
    name: String,
    title: String,
    description: String,
    /// The families its texts name.
    families: Vec<String>,
    /// The first letters of each face it holds, by family: "wOF2" starts a WOFF 2 file (RFC 8081
    /// and the W3C's WOFF File Format 2.0).
    faces: Vec<(String, String)>,
}

/// Presses the button of a drawing and reads the file that would be saved.
fn take(page: &Page, drawing: &str) -> Result<Picture> {
    page.unfold("share")?;
    page.run(
        "window.taken = undefined; const make = URL.createObjectURL; \
         const click = HTMLAnchorElement.prototype.click; let made; \
         URL.createObjectURL = (blob) => (made = blob, make.call(URL, blob)); \
         HTMLAnchorElement.prototype.click = function () { \
            URL.createObjectURL = make; HTMLAnchorElement.prototype.click = click; \
            window.taken = { name: this.download, blob: made }; \
         }; \
         probe.one(`[data-export=${args}]`).click()",
        json!(drawing),
    )?;
    page.until("the file is made", "window.taken")?;
    // The page's own policy forbids the rules in a document that is made in it: they are read as text.
    page.get(
        "(async () => { \
            const { name, blob } = window.taken; const text = await blob.text(); \
            const [style, rules] = text.match(/<style>([^<]*)<.style>/); \
            const file = new DOMParser().parseFromString(text.replace(style, ''), 'image/svg+xml'); \
            const said = (tag) => file.documentElement.querySelector(`:scope > ${tag}`).textContent; \
            const texts = [...file.querySelectorAll('text')]; \
            const faces = rules.matchAll(/font-family: \"([^\"]+)\"[^}]*base64,([^\"]+)\"/g); \
            return { \
                name, title: said('title'), description: said('desc'), \
                families: [...new Set(texts.map((node) => node.getAttribute('font-family')))], \
                faces: [...faces].map(([, family, data]) => [family, atob(data).slice(0, 4)]), \
            }; \
        })()",
        Value::Null,
    )
}

/// Catches files that say nothing to those who do not see them, and such as only name their
/// letters, which look otherwise wherever these are not installed.
#[test]
fn a_drawing_taken_away_is_described_and_holds_its_letters() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(SECOND), |page| {
        for (drawing, file, title) in [
            (
                "section",
                "half-section",
                "Half-section drawing of Six-speed, three sets",
            ),
            (
                "lever",
                "lever-diagram",
                "Lever diagram of Six-speed, three sets",
            ),
        ] {
            let picture = take(page, drawing)?;
            ensure!(
                picture.name == format!("six-speed-three-sets-2nd-{file}.svg"),
                "{picture:?}"
            );
            ensure!(picture.title == title, "{picture:?}");
            ensure!(
                picture.description.contains("Ratio 1.977 to 1"),
                "{picture:?}"
            );
            ensure!(picture.faces.len() == 2, "{picture:?}");
            for (family, start) in &picture.faces {
                ensure!(start == "wOF2", "{picture:?}");
                ensure!(
                    picture.families.iter().any(|named| named.contains(family)),
                    "{picture:?}"
                );
            }
        }
        Ok(())
    })
}
