-- Opens a notebook and a page in Neovim, set up as editors/neovim says, and holds what is seen against what must be.
--
--   nvim --clean --headless -l neovim.lua PROJECT WATER RIG_PARSER
--
-- PROJECT is the top of the project, WATER a copy of the folder beside this file that may be changed.

local project, water, parser = _G.arg[1], _G.arg[2], _G.arg[3]
local LONGEST = 60000

vim.opt.runtimepath:append({ project .. '/editors/vim', project .. '/editors/neovim' })
vim.opt.swapfile = false
dofile(project .. '/editors/neovim/plugin/snell.lua')
vim.cmd('filetype plugin on')
vim.cmd('syntax on')

local function fail(what)
  io.stderr:write('neovim: ' .. what .. '\n')
  os.exit(1)
end

local function say(what) io.stdout:write(what .. '\n') end

local function hold(what, ok, seen)
  if not ok then fail(what .. ' does not hold; seen: ' .. vim.inspect(seen)) end
  say('holds: ' .. what)
end

local function wait(what, test)
  if not vim.wait(LONGEST, test, 20) then fail('waited in vain for ' .. what) end
end

local function same(what, seen, wanted) hold(what, vim.deep_equal(seen, wanted), seen) end

local function line(number) return vim.api.nvim_buf_get_lines(0, number - 1, number, true)[1] end

-- Puts the cursor on the first `word` of a line.
local function go(number, word) vim.api.nvim_win_set_cursor(0, { number, line(number):find(word, 1, true) - 1 }) end

-- The findings of the buffer, as line, text that is marked, and name.
local function findings()
  local found = {}
  for _, one in ipairs(vim.diagnostic.get(0)) do
    local marked = vim.api.nvim_buf_get_text(0, one.lnum, one.col, one.end_lnum, one.end_col, {})[1]
    table.insert(found, { one.lnum + 1, marked, one.code })
  end
  table.sort(found, function(a, b) return a[1] < b[1] end)
  return found
end

local function ask(method, params)
  local answers = vim.lsp.buf_request_sync(0, method, params, LONGEST) or {}
  for _, answer in pairs(answers) do
    if answer.error then fail(method .. ': ' .. vim.inspect(answer.error)) end
    return answer.result
  end
  fail(method .. ' was not answered')
end

local function here()
  local client = vim.lsp.get_clients({ bufnr = 0 })[1]
  return vim.lsp.util.make_position_params(0, client.offset_encoding)
end

local function edit(name)
  vim.cmd.edit(water .. '/' .. name)
  wait('a server for ' .. name, function() return #vim.lsp.get_clients({ bufnr = 0 }) == 1 end)
end

local function open(name, rule, size)
  edit(name)
  wait('findings in ' .. name, function() return #vim.diagnostic.get(0) >= 2 end)
  same(name .. ': findings stand on their words, also behind an emoji', findings(), {
    { rule, 'lenght', 'name-unknown' },
    { size, '6 x', 'size-spaced' },
  })
end

-- Mends the finding of a line as a person would, from the list of what can be done there.
local function mend(number, word, wanted)
  go(number, word)
  local before = line(number)
  vim.lsp.buf.code_action({ apply = true, filter = function(action) return action.title:find(wanted, 1, true) ~= nil end })
  wait('a mend of line ' .. number, function() return line(number) ~= before end)
end

local function mended(rule, size)
  mend(rule, 'lenght', 'length')
  same('a word behind an emoji is mended', line(rule), '  say     "🎣🐟 {gap.length} is too close"')
  mend(size, '6 x', '6X')
  same('a size is mended', line(size), '  tippet  40 in  of 6X fluoro')
  wait('the findings to go, but for what the mended rule says', function()
    local left = findings()
    return #left == 1 and left[1][3] == 'apart'
  end)
  say('holds: findings go once they are mended')
end

local function format(last)
  same('a line to lay out is there', line(last), '  point bracken')
  vim.lsp.buf.format({ async = false, timeout_ms = LONGEST })
  same('the file is laid out', line(last), '  point   bracken')
end

local function told(number, word)
  go(number, word)
  local hover = ask('textDocument/hover', here())
  local text = hover and (hover.contents.value or hover.contents) or ''
  hold('hover tells of ' .. word, type(text) == 'string' and text:find('mm', 1, true) ~= nil, hover)
end

local function completes(number)
  vim.api.nvim_buf_set_lines(0, number, number, true, { '  tip' })
  vim.api.nvim_win_set_cursor(0, { number + 1, 5 })
  local params = here()
  params.position.character = 5
  local answer = ask('textDocument/completion', params)
  local items = answer.items or answer
  local labels = vim.iter(items):map(function(item) return item.label end):totable()
  hold('completion knows `tippet`', vim.iter(labels):any(function(label) return label:find('^tippet') ~= nil end), labels)
  vim.api.nvim_buf_set_lines(0, number, number + 1, true, {})
end

-- What a file is about to be, which need not be shown.
local function in_file(what, name, number, wanted)
  local buffer = vim.fn.bufadd(water .. '/' .. name)
  vim.fn.bufload(buffer)
  same(what, vim.api.nvim_buf_get_lines(buffer, number - 1, number, true)[1], wanted)
end

local function renamed()
  go(21, 'slate')
  vim.lsp.buf.rename('pewter')
  wait('the rename', function() return line(21):find('pewter', 1, true) end)
  same('the rig takes the fly by its new name', line(21), '  dropper 6 in   with pewter')
  in_file('the fly in the other file has it', 'flies.rig', 3, 'fly pewter "slate spider"')
  in_file('a rig on a page has it', 'article.md', 28, '  dropper 6 in   with pewter')
end

local function captured(number, column)
  -- Not every kind of file is coloured by tree-sitter of itself.
  if not vim.treesitter.highlighter.active[vim.api.nvim_get_current_buf()] then vim.treesitter.start() end
  vim.treesitter.get_parser(0):parse(true)
  local captures = vim.treesitter.get_captures_at_pos(0, number - 1, column)
  return vim.iter(captures):map(function(one) return one.lang .. ':' .. one.capture end):totable()
end

local function coloured(number, column, wanted)
  local captures = captured(number, column)
  hold(('%d:%d is coloured as %s'):format(number, column, wanted), vim.tbl_contains(captures, 'rig:' .. wanted), captures)
end

vim.treesitter.language.add('rig', { path = parser })
for _, name in ipairs({ 'highlights', 'locals' }) do
  local file = project .. '/grammar/tree-sitter-rig/queries/' .. name .. '.scm'
  vim.treesitter.query.set('rig', name, table.concat(vim.fn.readfile(file), '\n'))
end

open('beck.rig', 11, 26)
same('the kind of file is known', vim.bo.filetype, 'rig')
coloured(20, 2, 'property')
told(20, '6X')
completes(23)
format(23)
mended(11, 26)
renamed()
vim.cmd('silent wall')

open('article.md', 14, 33)
coloured(27, 2, 'property')
told(27, '6X')
completes(30)
format(30)
mended(14, 33)

edit('days.rig')
coloured(5, 0, 'keyword.type')
coloured(6, 2, 'property')
coloured(6, 10, 'number')
coloured(6, 18, 'number')
coloured(8, 2, 'property')

local clients = vim.lsp.get_clients()
for _, client in ipairs(clients) do client:stop() end
wait('the server to end', function() return #vim.lsp.get_clients() == 0 end)
say('holds: the server ends when it is told to')
os.exit(0)
