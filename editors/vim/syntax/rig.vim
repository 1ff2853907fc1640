" Colours for rig files. The lists of words are made by `cargo refresh`.
if exists('b:current_syntax')
  finish
endif
syntax case ignore

syntax match rigName /\<\a[[:alnum:]-]*\>/ contained
syntax match rigMeasure /\(\k\|-\)\@<!\(mass-beyond-tip\|float-to-point\|greatest-wind\|tippet-needed\|breaks-above\|tippet-ratio\|hook-length\|leader-mass\|ring-number\|sighter-out\|temperature\|beyond-tip\|drag-share\|float-lift\|fly-spread\|hang-apart\|knot-ratio\|parts-mass\|parts-sink\|wet-weight\|hook-size\|off-label\|ring-size\|run-borne\|sink-time\|sunk-mass\|diameter\|draws-in\|material\|sag-pull\|sink-run\|strength\|to-point\|changes\|off-bed\|sighter\|stretch\|weakest\|colour\|floats\|in-air\|length\|method\|stress\|tippet\|wading\|weight\|x-size\|depth\|drags\|flies\|gives\|hangs\|rated\|ratio\|reach\|rides\|sinks\|speed\|total\|area\|bead\|drag\|hook\|kind\|knot\|lead\|line\|mass\|role\|room\|step\|run\|sag\)\(\k\|-\)\@!/
syntax match rigValue /\(\k\|-\)\@<!\(dry-dropper\|tight-line\|streamer\|float\|lines\|loops\|down\|ring\|team\|tuck\|dry\|fly\|tag\|up\)\(\k\|-\)\@!/
syntax match rigColour /\(\k\|-\)\@<!\(fluorescent\|chartreuse\|turquoise\|burgundy\|cinnamon\|two-tone\|crimson\|magenta\|natural\|scarlet\|bronze\|claret\|copper\|ginger\|maroon\|orange\|purple\|silver\|violet\|yellow\|amber\|beige\|black\|brown\|clear\|cream\|green\|khaki\|lemon\|lilac\|olive\|peach\|pearl\|straw\|white\|blue\|gold\|gray\|grey\|lime\|pink\|rust\|red\|tan\)\(\k\|-\)\@!/
syntax match rigJoint /\(\k\|-\)\@<!\(because\|after\|over\|with\|off\|as\|at\|of\|on\|to\|from\)\(\k\|-\)\@!/
syntax match rigCondition /\(\k\|-\)\@<!\(at\s\+least\|at\s\+most\|between\|about\|over\|under\|and\|or\|is\(\s\+not\)\?\)\(\k\|-\)\@!/
syntax match rigNumber /\(\k\|-\)\@<!\(\d\+\([.,\/]\d\+\)\?\|\.\d\+\)\(\s\?[¼½¾⅓⅔⅛⅜⅝⅞]\)\?/ nextgroup=rigUnit skipwhite
syntax match rigDay /\(\k\|-\)\@<!\d\{4}[-‑–—−]\d\{2}[-‑–—−]\d\{2}\(\k\|-\)\@!/
syntax match rigSize /#\d\+\([\/.]\d\+\)\?/
syntax match rigUnit /\(\(milligrammes\|centimeters\|centimetres\|gigapascals\|kilogrammes\|megapascals\|milligramme\|millimeters\|millimetres\|centigrade\|centimeter\|centimetre\|fahrenheit\|gigapascal\|kilogramme\|megapascal\|milligrams\|millimeter\|millimetre\|kilograms\|milligram\|kilogram\|celsius\|degrees\|grammes\|minutes\|newtons\|pascals\|percent\|seconds\|degree\|grains\|gramme\|inches\|meters\|metres\|minute\|newton\|ounces\|pascal\|pounds\|second\|weight\|grain\|grams\|hours\|kilos\|meter\|metre\|ounce\|pound\|thous\|turns\|wraps\|yards\|degc\|degf\|degs\|feet\|foot\|gram\|hour\|inch\|kilo\|kmph\|mins\|secs\|thou\|turn\|wrap\|yard\|GPa\|MPa\|cms\|deg\|fps\|gms\|grs\|hrs\|ins\|kgs\|kmh\|kph\|lbs\|min\|mms\|mph\|mps\|ozs\|pct\|sec\|wts\|yds\|Pa\|cm\|ft\|gm\|gr\|hr\|in\|kg\|lb\|mg\|mm\|oz\|wt\|yd\|C\|F\|N\|g\|h\|m\|s\)[23²³]\?\(\/\(milligrammes\|centimeters\|centimetres\|gigapascals\|kilogrammes\|megapascals\|milligramme\|millimeters\|millimetres\|centigrade\|centimeter\|centimetre\|fahrenheit\|gigapascal\|kilogramme\|megapascal\|milligrams\|millimeter\|millimetre\|kilograms\|milligram\|kilogram\|celsius\|degrees\|grammes\|minutes\|newtons\|pascals\|percent\|seconds\|degree\|grains\|gramme\|inches\|meters\|metres\|minute\|newton\|ounces\|pascal\|pounds\|second\|weight\|grain\|grams\|hours\|kilos\|meter\|metre\|ounce\|pound\|thous\|turns\|wraps\|yards\|degc\|degf\|degs\|feet\|foot\|gram\|hour\|inch\|kilo\|kmph\|mins\|secs\|thou\|turn\|wrap\|yard\|GPa\|MPa\|cms\|deg\|fps\|gms\|grs\|hrs\|ins\|kgs\|kmh\|kph\|lbs\|min\|mms\|mph\|mps\|ozs\|pct\|sec\|wts\|yds\|Pa\|cm\|ft\|gm\|gr\|hr\|in\|kg\|lb\|mg\|mm\|oz\|wt\|yd\|C\|F\|N\|g\|h\|m\|s\)[23²³]\?\)\?\|x\)\(\k\|-\)\@!\|%\|[°º]\s*[cf]\?\|['’′]\{1,2}\|["”″]/ contained
syntax match rigKey /^\s*\zs\(temperature\|barbless\|material\|measured\|strength\|unsuited\|decides\|density\|dressed\|dropper\|edition\|modulus\|off-bed\|sighter\|stretch\|surface\|without\|caught\|colour\|fibres\|floats\|inline\|leader\|length\|method\|remove\|source\|swivel\|tippet\|weight\|about\|allow\|bends\|depth\|drift\|float\|grain\|holds\|joins\|level\|point\|price\|range\|rated\|reach\|rules\|sinks\|solid\|taper\|water\|bead\|bulk\|butt\|cast\|drag\|hook\|knot\|left\|line\|lost\|mass\|mean\|mend\|note\|ring\|shot\|size\|step\|test\|uses\|wind\|wire\|with\|add\|bed\|day\|fly\|for\|rig\|rod\|run\|say\|set\|tip\|wet\)\(\k\|-\)\@!/
syntax match rigForm /^\s*\zs\(change\|expect\|unless\|limit\|keep\|when\|let\|add\|remove\|use\)\(\k\|-\)\@!/
syntax match rigKind /^\(dressing\|material\|rulebook\|outing\|spool\|water\|knot\|rule\|bed\|fly\|rig\|rod\)\(\s\+\a\)\@=/ nextgroup=rigName skipwhite
syntax match rigText /\(\d\)\@<!["“”„«»].\{-}["“”„«»]\(\s*\.\?\s*\($\|\/\/\)\)\@=/
syntax match rigComment /\/\/.*$/ contains=@Spell

highlight default link rigComment Comment
highlight default link rigText String
highlight default link rigKind Type
highlight default link rigName Title
highlight default link rigForm Keyword
highlight default link rigKey Identifier
highlight default link rigJoint Statement
highlight default link rigCondition Operator
highlight default link rigNumber Number
highlight default link rigDay Number
highlight default link rigSize Number
highlight default link rigUnit Special
highlight default link rigMeasure Function
highlight default link rigValue Constant
highlight default link rigColour Constant

let b:current_syntax = 'rig'
