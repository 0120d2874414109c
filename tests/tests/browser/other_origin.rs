//! Other origins: the element from another host than its page's, under the policy that README names, and
//! the page as a file.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{View, page, required, skipped};
use serde_json::Value;
use xtask::test_environment::SITE;
use xtask::{paths, site};

use crate::by_hand::{self, FIRST};
use crate::most_combinations;

/// The line of README that starts with `script-src HOST`.
fn policy(host: &str) -> Result<String> {
    let readme = fs::read_to_string(paths::root().join("README.md"))?;
    let line = readme
        .lines()
        .map(str::trim)
        .find(|line| line.starts_with("script-src HOST"))
        .context("README names no policy")?;
    Ok(format!(
        "default-src 'none'; {}",
        line.replace("HOST", host)
    ))
}

/// Catches a file that the element asks for and the policy in README forbids, a host of ours that
/// does not let others have its files, and an address that is taken from the page's host.
#[test]
fn the_element_works_from_another_host_under_the_policy_in_readme() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let ours = site::start(&required(SITE)?)?;
    let host = ours.address().trim_end_matches('/');
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("other-origin");
    fs::create_dir_all(&folder)?;
    fs::write(
        folder.join("lesson.html"),
        format!(
            "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Lesson</title>\
             <script type=\"module\" src=\"{host}/element.js\"></script><h1>Lesson</h1>\
             <lever-train with=\"all\" scenario=\"{}\" applied=\"{}\"></lever-train>",
            by_hand::STEM,
            FIRST.applied.join(",")
        ),
    )?;
    page::open_foreign(&folder, &policy(host)?, "lesson.html", |page| {
        // The browser asks for an icon by itself.
        page.expect_fault("favicon.ico");
        let seen = page.seen()?;
        ensure!(seen.ratio.as_deref() == Some(FIRST.ratio), "{seen:?}");
        for panel in ["effort", "share", "bearings", "file"] {
            page.unfold(panel)?;
        }
        page.until("the editor has come", "probe.one('.cm-content')")?;
        let styles: [String; 2] = page.get(
            "[getComputedStyle(probe.one('.cm-editor')).display, \
                getComputedStyle(probe.one('.cm-content')).whiteSpace]",
            Value::Null,
        )?;
        ensure!(
            styles == ["flex", "pre"],
            "its styles are forbidden: {styles:?}"
        );
        // A page has workers of its own host only.
        page.open_file(&most_combinations::most_file()?.0)?;
        page.unfold("combinations")?;
        page.until(
            "all are listed",
            &format!("{} === 65536", most_combinations::ROWS),
        )?;
        let faces: usize = page.get(
            "[...document.fonts].filter(({ status }) => status === 'loaded').length",
            Value::Null,
        )?;
        ensure!(faces > 0, "no face has come");
        Ok(())
    })
}

/// Catches a page that stays silent where its scripts do not run.
#[test]
fn opened_as_a_file_the_page_says_why_it_does_not_start() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        let words = "document.querySelector('.before-blocked')";
        ensure!(
            !page.get::<bool>(&format!("{words}.checkVisibility()"), Value::Null)?,
            "said by a page that has started"
        );
        for part in ["did not load", "file:"] {
            page.expect_fault(part);
        }
        page.goto_file(&required(SITE)?.join("index.html"))?;
        page.until(
            "it says why",
            &format!(
                "{words}.checkVisibility({{ visibilityProperty: true }}) \
                 && {words}.textContent.includes('file://')"
            ),
        )
    })
}

/// Catches a page that stays silent where its host, or what stands before it, forbids its scripts.
#[test]
fn where_its_scripts_are_forbidden_the_page_says_why_it_does_not_start() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        let site = site::start_foreign(&required(SITE)?, "some/sub-path", "script-src 'none'")?;
        for part in ["script-src", "did not load"] {
            page.expect_fault(part);
        }
        page.goto_silent(&format!("{}index.html", site.address()))?;
        let words = "document.querySelector('.before-blocked')";
        page.until(
            "it says why",
            &format!(
                "{words}.checkVisibility({{ visibilityProperty: true }}) \
                 && {words}.textContent.includes('blocks its scripts')"
            ),
        )?;
        let started: bool = page.get("Boolean(customElements.get('lever-train'))", Value::Null)?;
        ensure!(!started, "the policy forbids nothing");
        Ok(())
    })
}
