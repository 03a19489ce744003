/** Bright, dark, or as the phone says. */
export type ThemeChoice = "phone" | "bright" | "dark";
const KEY = "underlid-theme";

export class Theme {
  #choice = $state<ThemeChoice>("phone");

  get choice(): ThemeChoice {
    return this.#choice;
  }

  start(): void {
    const before = localStorage.getItem(KEY);
    this.choose(before === "bright" || before === "dark" ? before : "phone");
  }

  choose(choice: ThemeChoice): void {
    this.#choice = choice;
    localStorage.setItem(KEY, choice);
    if (choice === "phone") delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = choice;
  }
}

export const theme = new Theme();
