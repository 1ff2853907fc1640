//! Texts that a repository keeps, each read once through one long-running git.

use super::program::Running;
use crate::git::repository::Repository;
use crate::trouble::Trouble;
use snell_analysis::Unread;
use std::cell::{Cell, RefCell};
use std::collections::HashMap;
use std::io::{self, BufRead, BufReader, Read, Write};
use std::process::{ChildStdin, Stdio};

/// How much text is kept before it is forgotten and read again by need.
const KEPT: usize = 32 * 1024 * 1024;

/// The texts of a repository by their id.
pub struct Blobs {
    asked: RefCell<Asked>,
    known: RefCell<HashMap<String, String>>,
    kept: Cell<usize>,
    read: Cell<usize>,
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
        Ok(Self {
            asked: RefCell::new(Asked {
                to: running.to.take(),
                from: BufReader::new(running),
            }),
            known: RefCell::default(),
            kept: Cell::new(0),
            read: Cell::new(0),
        })
    }

    /// How many texts were asked of git.
    pub fn count(&self) -> usize {
        self.read.get()
    }

    /// A text.
    ///
    /// # Errors
    /// It is not there, too large, or no text.
    pub fn text(&self, id: &str) -> Result<String, Unread> {
        if let Some(known) = self.known.borrow().get(id) {
            return Ok(known.clone());
        }
        let text = self.asked.borrow_mut().text(id)?;
        self.read.set(self.read.get() + 1);
        if self.kept.get() + text.len() > KEPT {
            self.known.borrow_mut().clear();
            self.kept.set(0);
        }
        self.kept.set(self.kept.get() + text.len());
        self.known.borrow_mut().insert(id.to_owned(), text.clone());
        Ok(text)
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
