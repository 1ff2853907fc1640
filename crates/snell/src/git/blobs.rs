//! Texts that a repository keeps, each read once through one long-running git.

use super::program::Running;
use crate::git::repository::Repository;
use crate::trouble::Trouble;
use snell_analysis::Unread;
use std::collections::HashMap;
use std::io::{self, BufRead, BufReader, Read, Write};
use std::process::{ChildStdin, Stdio};
use std::sync::{Mutex, MutexGuard, PoisonError};

/// How much text is kept before it is forgotten and read again by need.
const KEPT: usize = 32 * 1024 * 1024;

/// The texts of a repository by their id, for any thread that asks.
pub struct Blobs(Mutex<Texts>);

struct Texts {
    asked: Asked,
    known: HashMap<String, String>,
    /// Bytes of what is known.
    kept: usize,
    read: usize,
}

/// The running git.
struct Asked {
    to: Option<ChildStdin>,
    from: BufReader<Running>,
}

impl Blobs {
    /// Starts git.
    ///
    /// # Errors
    /// It cannot be started.
    pub fn of(repository: &Repository) -> Result<Self, Trouble> {
        let mut command = repository.command(["cat-file", "--batch"]);
        command.stdin(Stdio::piped());
        let mut running = Running::start(command)?;
        let asked = Asked {
            to: running.to.take(),
            from: BufReader::new(running),
        };
        Ok(Self(Mutex::new(Texts {
            asked,
            known: HashMap::new(),
            kept: 0,
            read: 0,
        })))
    }

    /// How many texts were asked of git.
    pub fn count(&self) -> usize {
        self.texts().read
    }

    /// A text.
    ///
    /// # Errors
    /// It is not there, too large, or no text.
    pub fn text(&self, id: &str) -> Result<String, Unread> {
        let mut texts = self.texts();
        if let Some(known) = texts.known.get(id) {
            return Ok(known.clone());
        }
        let text = texts.asked.text(id)?;
        texts.read += 1;
        if texts.kept + text.len() > KEPT {
            texts.known.clear();
            texts.kept = 0;
        }
        texts.kept += text.len();
        texts.known.insert(id.to_owned(), text.clone());
        Ok(text)
    }

    fn texts(&self) -> MutexGuard<'_, Texts> {
        // A thread that panicked ends the command.
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Asked {
    /// Asks for one object: `ID TYPE SIZE`, its bytes, a line end. Source: git-cat-file(1), BATCH OUTPUT.
    fn text(&mut self, id: &str) -> Result<String, Unread> {
        let to = self.to.as_mut().ok_or(Unread::Missing)?;
        writeln!(to, "{id}")?;
        to.flush()?;
        let mut head = String::new();
        self.from.read_line(&mut head)?;
        if head.trim_end().ends_with(" missing") {
            let why =
                "this clone does not hold it (it is a partial or a broken one); fetch the whole of it first";
            return Err(io::Error::other(why).into());
        }
        let mut words = head.split_whitespace().skip(1);
        let (Some("blob"), Some(size)) = (words.next(), words.next()) else {
            return Err(Unread::Missing);
        };
        let size: u64 = size.parse().map_err(|_| Unread::Missing)?;
        let mut rest = (&mut self.from).take(size.saturating_add(1));
        let text = snell_analysis::from_reader((&mut rest).take(size));
        // What was not read of a text that is refused is passed over, and so is the line end.
        io::copy(&mut rest, &mut io::sink())?;
        text
    }
}
