/**
 * The page of a private link that opens nothing: one sentence, and the same for a guessed, an expired and a revoked
 * one. Whole in itself, because the frame's own page for what is not found is drawn by script.
 */
export const opensNothing = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex, nofollow">
<title>This link opens nothing</title>
<style>
:root { color-scheme: light dark; }
body { margin: 6px auto; max-width: 760px; padding: 18px 14px 28px; border: 2px solid; color: light-dark(#1a2829, #e9e4d6);
  background: light-dark(#f4f0e6, #101b1c); font: 18px/1.5 "B612", "DejaVu Sans", "Verdana", sans-serif; }
h1 { margin: 0 0 12px; font-size: 24px; font-weight: 400; }
p { margin: 0; }
</style>
</head>
<body>
<main>
<h1>This link opens nothing</h1>
<p>It was mistyped, has run out or was taken back. Ask the shop for a new one.</p>
</main>
</body>
</html>
`;
