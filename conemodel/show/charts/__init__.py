"""What live charts share: pieces of Vega-Lite, label layout, the axis over the cone's position."""
