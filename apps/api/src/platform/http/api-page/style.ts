/** The look of the API's page; its values are those of the pages by day. */
export const style = `
:root { --ground: #f7f4ec; --card: #fff; --ink: #18212b; --faint: #4c5661; --line: #c9ccc8; --act: #1f4468; color-scheme: light; }
@media (prefers-color-scheme: dark) {
  :root { --ground: #0f161e; --card: #1a2430; --ink: #efe9db; --faint: #a9b3bd; --line: #3d4956; --act: #9dc4ec; color-scheme: dark; }
}
* { box-sizing: border-box; }
body { margin: 0; background: var(--ground); color: var(--ink); font: 1rem/1.5 system-ui, sans-serif; }
.page { display: grid; grid-template-columns: minmax(200px, 260px) minmax(0, 1fr); gap: 32px; max-width: 1440px; margin: 0 auto; padding: 20px; }
nav { position: sticky; top: 20px; align-self: start; max-height: calc(100vh - 40px); overflow: auto; }
nav ul { list-style: none; margin: 0; padding: 0; }
nav a { display: block; padding: 4px 0; }
h1 { font-size: 2rem; margin: 0 0 8px; }
h2 { font-size: 1.4rem; margin: 52px 0 12px; }
h3 { font-size: 1rem; margin: 20px 0 8px; }
a { color: var(--act); }
a:focus-visible, summary:focus-visible { outline: 3px solid var(--act); outline-offset: 2px; }
code, pre { font-family: ui-monospace, monospace; font-size: 0.9em; overflow-wrap: anywhere; }
pre { background: var(--ground); padding: 12px; overflow: auto; max-height: 24rem; }
details { background: var(--card); border-bottom: 1px solid var(--line); padding: 0 12px; }
details[open] { padding-bottom: 12px; }
summary { cursor: pointer; padding: 8px 0; min-height: 32px; }
summary .method { display: inline-block; min-width: 4.5em; font-weight: 700; }
.faint { color: var(--faint); font-weight: 400; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: 4px 12px 4px 0; border-top: 1px solid var(--line); font-size: 0.9rem; }
thead th { border-top: 0; color: var(--faint); }
th[scope="row"] { font-family: ui-monospace, monospace; font-weight: 600; }
.d1 { padding-left: 20px; } .d2 { padding-left: 40px; } .d3 { padding-left: 60px; } .d4 { padding-left: 80px; } .d5 { padding-left: 100px; }
@media (max-width: 800px) { .page { grid-template-columns: minmax(0, 1fr); } nav { position: static; max-height: none; } }
@media print { nav { display: none; } .page { display: block; } }
`;
