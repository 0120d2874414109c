//! The user's own files, over a reload.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use levertrain_tests::files;
use serde_json::Value;

use crate::by_hand::{self, FIRST, SIXTH};

const NAME: &str = "Kept over a reload";

/// A file of the user's own: the six-speed under another name.
fn own_file(file: &str) -> Result<PathBuf> {
    let scenarios = files::scenarios()?;
    let six = scenarios.iter().find(|file| file.stem == by_hand::STEM);
    let mut train: Value = serde_json::from_str(six.map_or("", |file| &file.text))?;
    train["name"] = NAME.into();
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(file);
    fs::write(&path, train.to_string())?;
    Ok(path)
}

fn open(page: &Page, file: &Path) -> Result<()> {
    page.open_file(file)?;
    page.until("it is open", "location.hash === ''")?;
    page.rest()
}

/// Catches a reload that has lost the file, or what is applied in it.
#[test]
fn an_opened_file_survives_a_reload() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        open(page, &own_file("kept.json")?)?;
        ensure!(page.messages()?.is_empty(), "{:?}", page.messages()?);
        page.click_range(SIXTH.id)?;
        let before = page.seen()?;
        page.reload()?;
        let after = page.seen()?;
        ensure!(after.ratio.as_deref() == Some(SIXTH.ratio), "{after:?}");
        ensure!(after.scenario == before.scenario, "{after:?}");
        ensure!(page.messages()?.is_empty(), "{:?}", page.messages()?);
        Ok(())
    })
}

/// Catches a drawing of a set that is asked for once the train that it is part of is closed. Errors in
/// the page fail the test.
#[test]
fn a_file_whose_sets_have_other_names_opens_beside_an_open_end_view() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        page.run(
            "for (const node of probe.all('details')) node.open = true",
            Value::Null,
        )?;
        let shown = "probe.one('canvas[data-drawing=end]').width > 300";
        page.until("the end view is drawn", shown)?;
        let path = own_file("renamed.json")?;
        let text = fs::read_to_string(&path)?;
        let mut train: Value = serde_json::from_str(&text)?;
        for (at, set) in train["couplings"]
            .as_array_mut()
            .into_iter()
            .flatten()
            .enumerate()
        {
            set["id"] = format!("other{at}").into();
        }
        fs::write(&path, train.to_string())?;
        open(page, &path)?;
        let set: String = page.get("probe.one('#end-set').value", Value::Null)?;
        ensure!(set == "other0", "{set}");
        Ok(())
    })
}

/// Catches a file that will be lost at a reload without a word.
#[test]
fn a_file_that_cannot_be_kept_is_open_all_the_same_and_it_is_said() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        page.run(
            "Storage.prototype.setItem = () => { throw new DOMException('', 'QuotaExceededError') }",
            Value::Null,
        )?;
        open(page, &own_file("unkept.json")?)?;
        let messages = page.messages()?;
        ensure!(messages.len() == 1, "{messages:?}");
        ensure!(messages[0].contains("unkept.json"), "{messages:?}");
        ensure!(messages[0].contains("reload"), "{messages:?}");
        // What would be lost is offered as a file.
        let saved: [String; 2] = page.get(
            "new Promise((resolve) => { \
                URL.createObjectURL = (file) => { \
                    const { click } = HTMLAnchorElement.prototype; \
                    HTMLAnchorElement.prototype.click = function () { \
                        HTMLAnchorElement.prototype.click = click; \
                        file.text().then((text) => resolve([this.download, text])); \
                    }; \
                    return '#'; \
                }; \
                probe.one('[data-part=offer]').click(); \
            })",
            Value::Null,
        )?;
        ensure!(saved[0] == "unkept.json", "{}", saved[0]);
        let text = fs::read_to_string(own_file("unkept.json")?)?;
        ensure!(saved[1] == text, "another text");
        Ok(())
    })
}
