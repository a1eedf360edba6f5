// Draws on demand: a frame when something asks for one, none when idle or hidden.

export class Frames {
  constructor(program) {
    this.program = program;
    this.asked = 0;
    this.count = 0; // drawn so far; tests read it
    this.stopped = false;
  }

  // Asks for a frame before the screen is next refreshed.
  want() {
    if (this.asked || this.stopped || document.hidden) return;
    this.asked = requestAnimationFrame((ms) => this.#draw(ms));
  }

  // Draws now, within this task.
  now() {
    if (this.stopped || document.hidden) return;
    if (this.asked) cancelAnimationFrame(this.asked);
    this.#draw(performance.now());
  }

  // Nothing is asked for and nothing moves.
  get idle() {
    return this.asked === 0;
  }

  stop() {
    this.stopped = true;
    if (this.asked) cancelAnimationFrame(this.asked);
    this.asked = 0;
  }

  #draw(ms) {
    this.asked = 0;
    this.count++;
    if (this.program.frame(ms)) this.want();
  }
}
