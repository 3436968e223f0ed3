import { LitElement } from "lit";
import { property } from "lit/decorators.js";

/** Narrower than this is not laid out yet. */
const leastWidth = 80;

/** A picture in the page's own tree that is drawn as wide as it has room. */
export abstract class Drawing extends LitElement {
  /** px. */
  @property({ type: Number }) width = 360;

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.observer.observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.observer.disconnect();
  }

  private readonly observer = new ResizeObserver(([entry]) => {
    const width = Math.round(entry?.contentRect.width ?? 0);
    if (width > leastWidth && width !== this.width) this.width = width;
  });
}
