//! The page without its host, and the change from one version of the site to the next.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Result, bail, ensure};
use levertrain_tests::browser::{Page, View, own_site, page, skipped};
use serde_json::Value;
use xtask::offline;

use crate::by_hand::{self, FIRST};

/// How often the page is left and opened again for a new version.
const TRIES: usize = 20;

const LIST: &str = "scenarios/index.json";

fn site(name: &str, files: &[(&str, &str)]) -> Result<PathBuf> {
    own_site::make(Path::new(env!("CARGO_TARGET_TMPDIR")).join(name), files)
}

/// Changes the text of the list, and the build's record of it where `whole`.
fn change_site(folder: &Path, from: &str, to: &str, whole: bool) -> Result<()> {
    let file = folder.join(LIST);
    let text = fs::read_to_string(&file)?;
    ensure!(text.contains(from), "no {from} in the list");
    fs::write(&file, text.replace(from, to))?;
    if whole {
        offline::list_files(folder)?;
    }
    Ok(())
}

/// The name of the first scenario in the list.
fn first_name(page: &Page) -> Result<String> {
    page.get("probe.one('#scenario option').textContent", Value::Null)
}

/// Catches a file that is not kept: the server is gone, not merely out of reach, and the page and
/// every scenario are there all the same.
#[test]
fn the_page_opens_without_its_host_with_every_scenario() -> Result<()> {
    page::open(View::LAPTOP.keeping(), &by_hand::link(FIRST), |page| {
        page.until_kept()?;
        page.cut_server();
        page.goto(&format!("index.html{}", by_hand::link(FIRST)))?;
        let seen = page.seen()?;
        ensure!(seen.ratio.as_deref() == Some(FIRST.ratio), "{seen:?}");
        let stems: Vec<String> = page.get(
            "probe.all('#scenario option').map(({ value }) => value).filter((value) => !value.includes('/'))",
            Value::Null,
        )?;
        ensure!(stems.len() > 5, "{stems:?}");
        for stem in &stems {
            page.choose(stem)?;
        }
        page.unfold("bearings")?;
        page.unfold("file")?;
        page.until("the editor has come", "probe.one('.cm-content')")?;
        // The folder's own address is the page too.
        page.goto("")?;
        ensure!(page.messages()?.is_empty(), "{:?}", page.messages()?);
        Ok(())
    })
}

/// Catches a new version that is taken file by file, one that shows in a page that is open, and one
/// that is never taken.
#[test]
fn a_new_version_is_taken_whole_once_no_page_of_the_old_one_is_left() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let folder = site("new-version", &[])?;
    page::open_in(&folder, View::LAPTOP.keeping(), "index.html", |page| {
        page.until_kept()?;
        let old = first_name(page)?;
        change_site(&folder, &old, "A train of the next version", true)?;
        page.reload()?;
        ensure!(first_name(page)? == old, "taken before all of it had come");
        page.until(
            "the new version has come",
            "await navigator.serviceWorker.ready.then(({ waiting }) => waiting)",
        )?;
        ensure!(first_name(page)? == old, "taken by an open page");
        page.reload()?;
        ensure!(first_name(page)? == old, "taken while its page was open");
        // Leaving the page lets the new version take over, a moment later.
        for _ in 0..TRIES {
            page.goto("index.html")?;
            if first_name(page)? == "A train of the next version" {
                return page.until(
                    "one version is kept",
                    "await caches.keys().then(({ length }) => length === 1)",
                );
            }
        }
        bail!("never taken")
    })
}

/// Catches a version that is pieced together while the host's files are being replaced.
#[test]
fn a_version_that_comes_in_part_is_not_taken() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let folder = site("half-a-version", &[])?;
    page::open_in(&folder, View::LAPTOP.keeping(), "index.html", |page| {
        page.until_kept()?;
        let old = first_name(page)?;
        // The record names one list, and the host has another.
        change_site(&folder, &old, "Announced", true)?;
        change_site(&folder, "Announced", "Not what was announced", false)?;
        page.expect_fault("digest");
        page.expect_fault("integrity");
        page.get::<()>(
            "navigator.serviceWorker.ready.then(async (registration) => { \
                await registration.update().catch(() => undefined); \
                const { installing } = registration; \
                if (installing) await new Promise((resolve) => { \
                    installing.addEventListener('statechange', resolve); \
                }); \
             })",
            Value::Null,
        )?;
        let waiting = "navigator.serviceWorker.ready.then(({ waiting }) => Boolean(waiting))";
        ensure!(!page.get::<bool>(waiting, Value::Null)?, "it waits");
        page.cut_server();
        page.reload()?;
        ensure!(first_name(page)? == old, "the page is another");
        let kept: usize = page.get("caches.keys().then(({ length }) => length)", Value::Null)?;
        ensure!(kept == 1, "{kept} versions are kept");
        Ok(())
    })
}

/// Catches a page that is kept although it is not ours, even one beside our own files.
#[test]
fn somebody_elses_page_is_not_kept() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let lesson = "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Lesson</title>\
         <link rel=\"icon\" href=\"data:,\"><script type=\"module\" src=\"element.js\"></script>\
         <h1>Lesson</h1><lever-train address></lever-train>";
    let folder = site("not-kept", &[("lesson.html", lesson)])?;
    page::open_in(&folder, View::LAPTOP.keeping(), "lesson.html", |page| {
        page.rest()?;
        // What it would be kept by begins once the browser is idle.
        let long_after = "new Promise((done) => requestIdleCallback(() => setTimeout(done, 500)))";
        page.get::<()>(long_after, Value::Null)?;
        let kept = "navigator.serviceWorker.getRegistrations().then(({ length }) => length)";
        let kept: usize = page.get(kept, Value::Null)?;
        ensure!(kept == 0, "{kept} service workers");
        let caches: usize = page.get("caches.keys().then(({ length }) => length)", Value::Null)?;
        ensure!(caches == 0, "{caches} caches");
        Ok(())
    })
}
