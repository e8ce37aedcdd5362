"""Text that would be markup, a command or a formula where it is not taken letter for letter; made up for the tests."""

HOSTILE = {
    "image": "![x](http://a.example/x.png)",
    "link": "[a](http://a.example) www.a.example",
    "html": "<img src=x onerror=a()> &lt;b&gt;",
    "mathematics": "$x$ $\\frac{$ $$y$$",
    "colour and sign": ":red[a] :material/home: :smile:",
    "emphasis": "**b** _i_ ~~s~~ `c` a->b--c",
    "heading": "# a",
    "list": "- a",
    "numbers": "1. a",
    "lines": "a\n\n# b\n- c",
    "escape": "\x1b[31ma\x1b]0;b\x07\x9b2J\r",
    "direction": "\u202eabc\u2066d\u200b\ufeff",
    "formula": "=1+1",
    "formula after a blank": " @SUM(1)",
    "legend": "_a",
    "quotes": "\" onload='a' x=\"",
    "broken mathematics": "a $ \\$ \\\\$ b",
}
"""Each at most 36 characters, the room of a caption."""
