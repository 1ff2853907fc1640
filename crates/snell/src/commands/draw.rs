//! `snell draw`: rigs as pictures, in the terminal or as files.

use super::{Ended, Outcome, Session};
use crate::cli::Draw;
use crate::picked::{Picked, units};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use crate::{drawing, write};
use snell_picture::{Medium, Scene};
use snell_view::Drawn;
use std::collections::BTreeSet;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Runs the command.
///
/// # Errors
/// A path cannot be read, a rig is not there, or a picture cannot be written.
pub fn run(options: &Draw, session: &mut Session) -> Outcome {
    let file = options.out.as_deref().map(PictureFile::read).transpose()?;
    let picked = Picked::read(&options.rigs)?;
    let terminal = Terminal::of(Stream::Out, session.colour);
    let medium = if file.is_some() {
        Medium::Page
    } else {
        Medium::Cells(terminal.width)
    };
    let draw = if options.in_water {
        snell_view::draw_in_water
    } else {
        snell_view::draw
    };
    let wanted = |name: &str, file: &str| picked.takes(name, file);
    let drawn = draw(&picked.notebook, units(options.units), medium, &wanted);
    let faulty = picked.tell_faults(session)?;
    match file {
        Some(file) => file.write_all(&drawn, session)?,
        None => print(&drawn, &terminal, session)?,
    }
    Ok(Ended::found_if(faulty))
}

fn print(drawn: &[Drawn], terminal: &Terminal, session: &mut Session) -> Result<(), Trouble> {
    for (index, one) in drawn.iter().enumerate() {
        let before = if index == 0 { "" } else { "\n" };
        let picture = match &one.scene {
            Ok(scene) => drawing::painted(scene, terminal),
            Err(why) => format!("{}: {why}\n", one.name),
        };
        write!(session.out, "{before}{picture}")?;
    }
    Ok(())
}

/// Where pictures are written, and as what.
pub(super) struct PictureFile<'o> {
    path: &'o Path,
    write: fn(&Scene) -> Result<Vec<u8>, snell_picture::write::Unpainted>,
}

impl<'o> PictureFile<'o> {
    pub(super) fn read(path: &'o Path) -> Result<Self, Trouble> {
        let ending = path
            .extension()
            .and_then(|ending| ending.to_str())
            .unwrap_or_default();
        let write = match ending.to_ascii_lowercase().as_str() {
            "svg" => |scene: &Scene| Ok(snell_picture::write::svg(scene, "rig").into_bytes()),
            "png" => |scene: &Scene| snell_picture::write::png(scene),
            _ => return Err(Trouble::NoPicture(path.display().to_string())),
        };
        Ok(Self { path, write })
    }

    pub(super) fn write_all(&self, drawn: &[Drawn], session: &mut Session) -> Result<(), Trouble> {
        let mut taken = BTreeSet::new();
        for one in drawn {
            let scene = match &one.scene {
                Ok(scene) => scene,
                Err(why) => {
                    writeln!(session.out, "{}: {why}", one.name)?;
                    continue;
                }
            };
            let path = if drawn.len() == 1 {
                self.path.to_owned()
            } else {
                self.beside(&one.name, &mut taken)
            };
            let picture = (self.write)(scene).map_err(|why| Trouble::unwritten(&path, why))?;
            write::put(&path, &picture).map_err(|why| Trouble::unwritten(&path, why))?;
            let but = one.left_out.as_ref().map(|why| format!(": {why}"));
            writeln!(session.out, "wrote {}{}", path.display(), but.unwrap_or_default())?;
        }
        Ok(())
    }

    /// One of several: `valley.svg` becomes `valley-harrow-low.svg`.
    fn beside(&self, name: &str, taken: &mut BTreeSet<String>) -> PathBuf {
        let stem = self.path.file_stem().unwrap_or_default().to_string_lossy();
        let ending = self.path.extension().unwrap_or_default().to_string_lossy();
        let numbers = std::iter::once(String::new()).chain((2..).map(|number| format!("-{number}")));
        let mut names = numbers.map(|number| format!("{stem}-{name}{number}.{ending}"));
        let free = names.find(|name| taken.insert(name.to_lowercase()));
        self.path.with_file_name(free.unwrap_or_default())
    }
}
