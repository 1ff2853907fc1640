//! A program's answers to the texts: what `check` and `show` print of each in
//! their JSON form, with the exit status and what stands on standard error.

use super::{files, write};
use crate::{Ran, Run};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::{io, thread};

/// The commands that are asked.
const COMMANDS: &[&str] = &["check", "show"];

/// Folders of the texts that are asked about as a whole too, since their files use each other.
const WHOLE: &[&str] = &["examples", "tests/editors/water"];

/// Asks `program` about every text below `texts`, writes a file of answers for each into `folder`, and gives
/// their number.
pub fn record(program: &Path, texts: &Path, folder: &Path) -> io::Result<usize> {
    let mut asked = files(texts)?;
    asked.extend(
        WHOLE
            .iter()
            .map(PathBuf::from)
            .filter(|path| texts.join(path).is_dir()),
    );
    let next = AtomicUsize::new(0);
    let work = || -> io::Result<()> {
        while let Some(path) = asked.get(next.fetch_add(1, Ordering::Relaxed)) {
            let mut file = folder.join(path).into_os_string();
            file.push(".json");
            write(Path::new(&file), &answer(program, texts, path).to_string())?;
        }
        Ok(())
    };
    thread::scope(|scope| {
        let workers = thread::available_parallelism().map_or(1, usize::from);
        let workers: Vec<_> = (0..workers).map(|_| scope.spawn(work)).collect();
        for worker in workers {
            worker
                .join()
                .map_err(|_| io::Error::other("a run did not end"))??;
        }
        Ok(asked.len())
    })
}

fn answer(program: &Path, texts: &Path, path: &Path) -> Value {
    let ask = |command: &&str| {
        let ran = Run::of(
            program,
            [
                command.as_ref(),
                "--form".as_ref(),
                "json".as_ref(),
                path.as_os_str(),
            ],
        )
        .within(texts)
        .finish();
        ((*command).to_owned(), told(&ran))
    };
    Value::Object(COMMANDS.iter().map(ask).collect())
}

fn told(ran: &Ran) -> Value {
    // What is no JSON is kept as it stands: `show` prints nothing where a file has no rig.
    let out = serde_json::from_str(&ran.out).unwrap_or_else(|_| lines(&ran.out));
    json!({ "status": ran.status, "out": out, "err": lines(&ran.err) })
}

fn lines(text: &str) -> Value {
    text.lines().map(Value::from).collect()
}
