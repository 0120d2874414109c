//! The markup that the page writes for what is on screen: put into another page, it shows the same.

use std::fs;
use std::path::Path;

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, own_site, page, required, skipped};
use levertrain_tests::files::root;
use serde_json::{Value, json};
use xtask::test_environment::SITE;

use crate::by_hand::{self, FIRST, SECOND};

const EMBED: &str = "probe.one('[data-part=embed]').value";

/// Opens a page of a site of this test's own.
fn open(
    name: &str,
    fragment: &str,
    test: impl FnOnce(&mut Page, &Path) -> Result<()>,
) -> Result<()> {
    if skipped() {
        return Ok(());
    }
    ensure!(required(SITE)?.is_dir());
    let folder = own_site::make(Path::new(env!("CARGO_TARGET_TMPDIR")).join(name), &[])?;
    page::open_in(
        &folder,
        View::LAPTOP,
        &format!("index.html{fragment}"),
        |page| {
            page.unfold("share")?;
            page.until("it is there", &format!("{EMBED} !== ''"))?;
            test(page, &folder)
        },
    )
}

fn choose(page: &Page, list: &str, value: &str) -> Result<()> {
    page.run(
        "const node = probe.one(`#embed-${args[0]}`); node.value = args[1]; node.dispatchEvent(new Event('change'))",
        json!([list, value]),
    )?;
    ensure!(
        page.get::<String>(&format!("probe.one('#embed-{list}').value"), Value::Null)? == value,
        "no {value}"
    );
    Ok(())
}

fn markup(page: &Page) -> Result<String> {
    page.rest()?;
    page.get(EMBED, Value::Null)
}

/// Puts markup into a page of the same site, under a name that the site itself keeps no page by, and goes there.
fn put(page: &Page, folder: &Path, markup: &str) -> Result<()> {
    let text = format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Lesson</title>\
         <link rel=\"icon\" href=\"data:,\">{markup}"
    );
    fs::write(folder.join("embeds.html"), text)?;
    page.goto("embeds.html")
}

/// Catches markup that shows something else than what is on screen, or leaves out what was chosen for it.
#[test]
fn markup_shows_what_is_on_screen() -> Result<()> {
    let link = format!(
        "#s={}&on={}&n=1500",
        by_hand::STEM,
        SECOND.applied.join(",")
    );
    open("share-element", &link, |page, folder| {
        let first = markup(page)?;
        ensure!(
            first.ends_with(&format!(
                "\n<lever-train scenario=\"{}\" range=\"{}\" speed=\"1500\"></lever-train>",
                by_hand::STEM,
                SECOND.id
            )),
            "{first}"
        );
        choose(page, "shown", "unfolded")?;
        page.unfold("losses")?;
        let open = markup(page)?;
        ensure!(
            open.contains(" with=\"ranges,chart,members,losses\""),
            "{open}"
        );
        choose(page, "locked", "elements")?;
        choose(page, "theme", "dark")?;
        choose(page, "language", "de")?;
        page.click("[role=switch][data-element-id=V]")?;
        let all = markup(page)?;
        ensure!(
            all.contains(" applied=\"") && !all.contains(" range="),
            "no range is applied: {all}"
        );
        put(page, folder, &all)?;
        let seen = page.seen()?;
        ensure!(seen.applied == ["K", "V", "W"], "{seen:?}");
        let looks: (String, String, String) = page.get(
            "[probe.one('.levertrain').lang, probe.host('lever-train').dataset.theme, \
                probe.one('[role=switch]').ariaDisabled]",
            Value::Null,
        )?;
        ensure!(
            looks == ("de".into(), "dark".into(), "true".into()),
            "{looks:?}"
        );
        let panels: Vec<String> = page.get(
            "probe.all('.panel[open]').filter((node) => node.checkVisibility()).map(({ dataset }) => dataset.part)",
            Value::Null,
        )?;
        ensure!(panels == ["chart", "members", "losses"], "{panels:?}");
        ensure!(page.messages()?.is_empty());
        Ok(())
    })
}

/// Catches a frame that shows something else, and exercises that are offered where there are none.
#[test]
fn a_frame_and_exercises_are_written_too() -> Result<()> {
    let link = format!("#s={}&on={}", by_hand::STEM, FIRST.applied.join(","));
    open("share-frame", &link, |page, _| {
        let offered = "!probe.one('#embed-shown option[value=exercise]').hidden";
        let has = |stem: &str| {
            root()
                .join(format!("scenarios/exercises/{stem}.json"))
                .is_file()
        };
        ensure!(page.get::<bool>(offered, Value::Null)? == has(by_hand::STEM));
        choose(page, "form", "frame")?;
        choose(page, "shown", "all")?;
        let frame = markup(page)?;
        let said: (String, String, String) = page.get(
            &format!(
                "(() => {{ const node = new DOMParser().parseFromString({EMBED}, 'text/html').querySelector('iframe'); \
                    return [new URL(node.src).search, node.title, node.getAttribute('loading')]; }})()"
            ),
            Value::Null,
        )?;
        let search = format!(
            "?scenario={}&range={}&with=all&speed=1000",
            by_hand::STEM,
            FIRST.id
        );
        ensure!(
            said == (search, "Six-speed, three sets".into(), "lazy".into()),
            "{frame}"
        );

        page.choose("01-one-set")?;
        ensure!(page.get::<bool>(offered, Value::Null)? && has("01-one-set"));
        choose(page, "form", "element")?;
        choose(page, "shown", "exercise")?;
        let asks = markup(page)?;
        ensure!(
            asks.contains(" exercise=\"scenario\"") && !asks.contains(" with="),
            "{asks}"
        );
        Ok(())
    })
}

/// Catches a train of one's own for which there is no markup, or markup that names another file than is saved, and
/// names that break out of an attribute.
#[test]
fn a_train_of_ones_own_is_a_file_beside_the_page() -> Result<()> {
    let train = fs::read_to_string(root().join(format!("scenarios/{}.json", by_hand::STEM)))?;
    let mut own: Value = serde_json::from_str(&train)?;
    own["name"] = json!("My \"own\" <train> & more");
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join("share-own.json");
    fs::write(&file, own.to_string())?;
    open("share-own", "", |page, folder| {
        page.open_file(&file)?;
        page.click_range(SECOND.id)?;
        let element = markup(page)?;
        ensure!(
            element.ends_with("<lever-train train=\"my-own-train-more.json\" range=\"2\" speed=\"1000\"></lever-train>"),
            "{element}"
        );
        let button: String = page.get("probe.text('[data-part=embed-file]')", Value::Null)?;
        ensure!(button.contains("my-own-train-more.json"), "{button}");
        page.run(
            "window.saved = undefined; const click = HTMLAnchorElement.prototype.click; \
             HTMLAnchorElement.prototype.click = function () { window.saved = this.download; }; \
             probe.one('[data-part=embed-file]').click(); HTMLAnchorElement.prototype.click = click",
            Value::Null,
        )?;
        let saved: String = page.get("saved", Value::Null)?;
        ensure!(saved == "my-own-train-more.json", "{saved}");
        choose(page, "form", "frame")?;
        let title: String = page.get(
            &format!("new DOMParser().parseFromString({EMBED}, 'text/html').querySelector('iframe').title"),
            Value::Null,
        )?;
        ensure!(title == "My \"own\" <train> & more", "{title}");

        fs::write(folder.join(&saved), own.to_string())?;
        put(page, folder, &element)?;
        let seen = page.seen()?;
        ensure!(seen.ratio.as_deref() == Some(SECOND.ratio), "{seen:?}");
        Ok(())
    })
}

/// Catches a sheet that is put together and cannot be embedded, markup that names another one, and what a host must send
/// that is not said.
#[test]
fn the_sheet_that_is_put_together_is_embedded() -> Result<()> {
    open("share-sheet", "#s=01-one-set", |page, folder| {
        let host = "probe.text('[data-part=embed-host]')";
        let told: String = page.get(host, Value::Null)?;
        ensure!(told.contains("Access-Control-Allow-Origin: *"), "{told}");
        let offered = "!probe.one('#embed-shown [value=sheet]').hidden";
        ensure!(
            !page.get::<bool>(offered, Value::Null)?,
            "there is none yet"
        );
        page.unfold("exercises")?;
        page.until(
            "there are kinds",
            "probe.all('#exercise-set-kind option').length > 2",
        )?;
        page.run(
            "globalThis.made = []; URL.createObjectURL = (blob) => { made.push(blob); return '#'; }; \
             probe.host('lever-train').range = 'sun-carrier'; \
             globalThis.title = probe.one('[data-part=exercise-title]'); title.value = 'Rings and suns '.repeat(5); \
             probe.one('[data-part=exercise-add]').click()",
            Value::Null,
        )?;
        page.until("it is offered", offered)?;
        choose(page, "shown", "sheet")?;
        // The name of its file is as long as its title.
        let [wide, room]: [f64; 2] = page.get(
            "[document.documentElement.scrollWidth, document.documentElement.clientWidth]",
            Value::Null,
        )?;
        ensure!(wide <= room, "{wide} px in {room}");
        page.run(
            "title.value = 'Rings & suns'; title.dispatchEvent(new Event('input'))",
            Value::Null,
        )?;
        let found = markup(page)?;
        ensure!(found.contains(" exercise=\"rings-suns.json\""), "{found}");
        page.run(
            "probe.one('[data-part=embed-sheet]').click(); made[0].text().then((text) => (globalThis.text = text))",
            Value::Null,
        )?;
        page.until("it is saved", "typeof text === 'string'")?;
        fs::write(
            folder.join("rings-suns.json"),
            page.get::<String>("text", Value::Null)?,
        )?;
        let asked: String = page.get("probe.text('.exercise-set li > span')", Value::Null)?;
        put(page, folder, &found)?;
        page.until("it asks", "probe.one('.exercise-asked')")?;
        let now: String = page.get("probe.text('.exercise-asked')", Value::Null)?;
        ensure!(asked.ends_with(&now), "{asked} and {now}");
        Ok(())
    })
}

/// Catches a frame that is too low for what it shows in the column of a page.
#[test]
fn a_frame_is_high_enough_for_what_it_shows() -> Result<()> {
    for stem in ["01-one-set", by_hand::STEM, "05-eight-speed-four-sets"] {
        open("share-high", &format!("#s={stem}"), |page, folder| {
            choose(page, "form", "frame")?;
            let frame = markup(page)?;
            let text = format!(
                "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Lesson</title>\
                 <link rel=\"icon\" href=\"data:,\"><table width=\"1000\"><td>{frame}</td></table>"
            );
            fs::write(folder.join("embeds.html"), text)?;
            page.goto_silent(&format!("{}embeds.html", page.address()))?;
            let inside = "document.querySelector('iframe').contentWindow";
            page.until(
                "it is there",
                &format!("{inside}.document.querySelector('lever-train')?.answer !== undefined"),
            )?;
            let over: f64 = page.get(
                &format!("{inside}.document.documentElement.scrollHeight - {inside}.innerHeight"),
                Value::Null,
            )?;
            ensure!(over <= 0.0, "{stem}: {over} px are out of sight");
            Ok(())
        })?;
    }
    Ok(())
}
