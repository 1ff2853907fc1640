# Installs snell for the person who runs it, on Windows:
#
#   powershell -ExecutionPolicy Bypass -File install.ps1 [-Folder FOLDER] [-From ADDRESS-OR-FOLDER]
#
# It fetches the archive and the list of sums from the release that it came with, compares the sum, and only then unpacks.
# Nothing but the folder is changed, and the user's own PATH, if they say yes.
param(
  [string]$Folder = (Join-Path $env:LOCALAPPDATA 'Programs\snell'),
  [string]$From = '@FROM@'
)
$ErrorActionPreference = 'Stop'
$version = '@VERSION@'

if ($From.StartsWith('@')) { throw 'This copy belongs to no release; say where the archives are: -From FOLDER' }
if (-not [Environment]::Is64BitOperatingSystem) { throw 'There is no archive for 32-bit Windows.' }
$name = "snell-$version-windows-x64"
$archive = "$name.zip"

$work = Join-Path ([IO.Path]::GetTempPath()) ([IO.Path]::GetRandomFileName())
New-Item -ItemType Directory -Path $work | Out-Null
try {
  foreach ($file in 'SHA256SUMS', $archive) {
    Write-Host "fetching $file from $From"
    if ($From -match '^https://') {
      [Net.ServicePointManager]::SecurityProtocol = [Net.SecurityProtocolType]::Tls12
      Invoke-WebRequest -UseBasicParsing -Uri "$From/$file" -OutFile (Join-Path $work $file)
    } else {
      Copy-Item -LiteralPath (Join-Path $From $file) -Destination $work
    }
  }
  $line = Get-Content (Join-Path $work 'SHA256SUMS') | Where-Object { $_ -match "^[0-9a-f]{64} [ *]$([regex]::Escape($archive))$" }
  if (-not $line) { throw "SHA256SUMS says nothing of $archive" }
  $sum = (Get-FileHash -Algorithm SHA256 -LiteralPath (Join-Path $work $archive)).Hash
  if ($sum -ne $line.Substring(0, 64)) { throw "The sum of $archive is not the one in SHA256SUMS: nothing was installed." }

  Expand-Archive -LiteralPath (Join-Path $work $archive) -DestinationPath $work
  New-Item -ItemType Directory -Force -Path $Folder | Out-Null
  $program = Join-Path $Folder 'snell.exe'
  Copy-Item -Force -LiteralPath (Join-Path $work "$name\snell.exe") -Destination $program
  & $program --version
} finally {
  Remove-Item -Recurse -Force -LiteralPath $work
}

$path = [Environment]::GetEnvironmentVariable('Path', 'User')
if (($path -split ';') -contains $Folder) {
  Write-Host "installed in $Folder; try: snell start"
} elseif ((Read-Host "installed in $Folder; put that on your PATH? [y/N]") -match '^y') {
  [Environment]::SetEnvironmentVariable('Path', "$path;$Folder".TrimStart(';'), 'User')
  Write-Host 'done; open a new terminal and try: snell start'
} else {
  Write-Host "call it by its whole path: $program"
}
