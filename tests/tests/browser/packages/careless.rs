//! Lessons where things go wrong: on a host that calls files something else, and in a course system that keeps nothing.

use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::thread;

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{page, skipped};
use levertrain_tests::files::root;
use serde_json::{Value, json};

use super::making;
use super::scorm::package;
use crate::learner::Learner;

const POLICY: &str = "default-src 'self' 'unsafe-inline' 'wasm-unsafe-eval' data: blob:";

/// A run-time that breaks in every way: it refuses, knows nothing, throws.
const BROKEN: &str = r#"<!doctype html><html lang="en"><meta charset="utf-8"><title>Course</title><link rel="icon" href="data:,">
<iframe src="lesson/lesson.html" width="1000" height="900"></iframe><script>
globalThis.asked = [];
globalThis.API = {
  LMSInitialize: () => "true",
  LMSGetValue: (field) => { asked.push(field); return field === "cmi.suspend_data" ? "<not ours>" : ""; },
  LMSSetValue: (field) => { asked.push(field); if (field.includes("score")) throw new Error("out of order"); return "false"; },
  LMSCommit: () => "false",
  LMSFinish: () => "false",
  LMSGetLastError: () => (asked.length === 0 || asked.at(-1).includes("suspend_data") ? 0 : "405"),
  LMSGetErrorString: () => "no such luck",
};
const inside = () => document.querySelector("iframe").contentWindow;
const train = () => inside().document.querySelector("lever-train[exercise]")?.shadowRoot;
const part = (name) => inside().document.querySelector(`[data-part=${name}]`)?.textContent ?? "";
</script>"#;

/// Catches a lesson that stops where its course system keeps nothing, that hides it, or that resumes what is none of its own.
#[test]
fn a_lesson_goes_on_where_a_course_system_breaks() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let files = package("scorm12", "")?;
    let folder = making::lay_out("course-broken", &files, &[("broken.html", BROKEN)])?;
    page::open_foreign(&folder, POLICY, "lesson/lesson.html", |page| {
        page.goto_silent(&format!("{}broken.html", page.address()))?;
        page.until("it walks", "train()?.querySelector('.walk-first li')")?;
        for _ in 0..2 {
            page.run(
                "train().querySelector('[data-part=walk-first-next]').click()",
                Value::Null,
            )?;
        }
        page.until("it asks", "train()?.querySelector('.exercise-asked')")?;
        page.until(
            "it tells of it",
            "part('lesson-trouble').includes('405 no such luck')",
        )?;
        let refused = "train().querySelector('[role=alert]').textContent";
        let told: String = page.get(refused, Value::Null)?;
        ensure!(
            told.contains("of another exercise sheet, or damaged"),
            "{told}"
        );
        for _ in 0..3 {
            page.run(
                "for (const part of ['reveal', 'next']) train().querySelector(`[data-part=exercise-${part}]`).click()",
                Value::Null,
            )?;
        }
        let score: String = page.get(
            "train().querySelector('.exercise-score').textContent",
            Value::Null,
        )?;
        ensure!(score.starts_with("Done: 0 of 3"), "{score}");
        let told: String = page.get("part('lesson-trouble')", Value::Null)?;
        ensure!(told.matches("405").count() == 1, "{told}");
        page.run("document.querySelector('iframe').remove()", Value::Null)
    })
}

/// A host that knows pages and scripts and calls all else text.
fn careless(folder: PathBuf) -> Result<String> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?;
    let address = format!("http://{}/", listener.local_addr()?);
    thread::spawn(move || {
        for stream in listener.incoming().flatten() {
            let folder = folder.clone();
            thread::spawn(move || send(stream, &folder));
        }
    });
    Ok(address)
}

fn send(mut stream: TcpStream, folder: &Path) -> Result<()> {
    let mut lines = BufReader::new(stream.try_clone()?).lines();
    let first = lines.next().context("a request")??;
    // To the end of the head.
    while !lines.next().context("a head")??.is_empty() {}
    let path = first.split(' ').nth(1).unwrap_or_default();
    let path = path
        .split('?')
        .next()
        .unwrap_or_default()
        .trim_start_matches('/');
    let kind = match path.rsplit('.').next() {
        Some("html") => "text/html",
        Some("js") => "text/javascript",
        Some("css") => "text/css",
        Some("svg") => "image/svg+xml",
        _ => "text/plain",
    };
    let (status, body) = match fs::read(folder.join(path)) {
        Ok(body) => ("200 OK", body),
        Err(_) => ("404 Not Found", Vec::new()),
    };
    write!(
        stream,
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nX-Content-Type-Options: nosniff\r\nContent-Length: {}\r\nConnection: close\r\n\r\n",
        body.len()
    )?;
    stream.write_all(&body)?;
    Ok(())
}

/// Catches an engine that starts only where the host knows what it is, or a file that a package lacks.
#[test]
fn a_lesson_starts_on_a_host_that_knows_little() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let files = package("scorm2004", "")?;
    let folder = making::lay_out("course-careless", &files, &[])?;
    let address = careless(folder.clone())?;
    page::open_foreign(&folder, POLICY, "lesson/lesson.html", |page| {
        page.goto_silent(&format!("{address}lesson/lesson.html"))?;
        page.until("it walks", "probe.all('.walk-first li').length > 2")?;
        Learner::at(page, "lever-train").walk_through()
    })
}

/// Catches a run-time that is not found where the standards put it, and a window of somebody else that ends the search.
#[test]
fn run_times_are_found_around_the_page_and_around_its_opener() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let files = package("scorm12", "")?;
    let folder = making::lay_out("course-found", &files, &[])?;
    fs::copy(root().join("www/course/calls.js"), folder.join("calls.js"))?;
    page::open_foreign(&folder, POLICY, "lesson/lesson.html", |page| {
        let found: Value = page.get(
            r#"import(args).then(({ findRuntime }) => {
                const windowIn = (parent, own = {}) => {
                    const made = { opener: null, ...own };
                    made.parent = parent ?? made;
                    made.top = parent?.top ?? made;
                    return made;
                };
                const API = { name: "the one" };
                const system = windowIn(null, { API });
                const foreign = windowIn(system);
                Object.defineProperty(foreign, "API", { get: () => { throw new DOMException("not yours", "SecurityError"); } });
                let deep = windowIn(system);
                for (let count = 0; count < 20; count += 1) deep = windowIn(deep);
                const endless = { opener: null };
                endless.parent = { get parent() { return { __proto__: this }; } };
                endless.top = endless;
                const places = {
                    parent: windowIn(system),
                    deep,
                    behind: windowIn(foreign),
                    opener: windowIn(null, { opener: windowIn(system) }),
                    topOpener: windowIn(windowIn(null, { opener: system })),
                    nowhere: windowIn(windowIn(null)),
                    endless,
                };
                return Object.fromEntries(Object.entries(places).map(([name, place]) => [name, findRuntime("API", place) === API]));
            })"#,
            json!(format!("{}calls.js", page.address())),
        )?;
        let expected = json!({
            "parent": true, "deep": true, "behind": true, "opener": true, "topOpener": true, "nowhere": false, "endless": false,
        });
        ensure!(found == expected, "{found}");
        Ok(())
    })
}
