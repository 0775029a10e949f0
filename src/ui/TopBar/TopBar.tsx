import { type ReactNode, useState } from "react";
import { Link } from "wouter";
import { initialsOf } from "../Ring/Ring.tsx";
import { changeSettings, useSettings } from "../settings.ts";
import { WhoDialog } from "../Who/WhoDialog.tsx";
import "./TopBar.css";

const skins = ["paper", "sun", "night"] as const;
const skinNames = { paper: "Paper", sun: "Sun", night: "Night" } as const;

interface TopBarProps {
  readonly title: string;
  readonly children?: ReactNode;
}

/** Where we are, who holds the tablet, and the two things changed at any moment: skin and units. */
export function TopBar({ title, children }: TopBarProps) {
  const { skin, units, actor } = useSettings();
  const [asking, setAsking] = useState(false);
  const nextSkin = skins[(skins.indexOf(skin) + 1) % skins.length] ?? "paper";
  return (
    <header className="top-bar">
      <Link href="/" className="mark" aria-label="Latchline: the board">
        <svg viewBox="0 0 32 32" width="32" height="32" aria-hidden="true">
          <path d="M9 2v28M19 2v9M19 21v9" className="mark-pipe" />
          <path d="M19 11h4a4 4 0 0 1 4 4v2a4 4 0 0 1-4 4h-4" className="mark-pipe" />
          <rect x="19" y="13" width="5" height="6" className="mark-valve" />
        </svg>
      </Link>
      <h1 className="top-title">{title}</h1>
      <div className="top-extra">{children}</div>
      <button
        type="button"
        className="top-choice who"
        aria-label={actor ? `${actor.name}, ${actor.role}. Change.` : "Who holds the tablet?"}
        onClick={() => setAsking(true)}
      >
        {actor ? (
          <>
            <span className="who-initials">{initialsOf(actor.name)}</span>
            <span className="who-name">{actor.name}</span>
            <span className="who-role">{actor.role}</span>
          </>
        ) : (
          <span className="who-name">Who holds the tablet?</span>
        )}
      </button>
      <button
        type="button"
        className="top-choice"
        onClick={() => changeSettings({ units: units === "field" ? "metric" : "field" })}
        aria-label={`Units: ${units === "field" ? "US oilfield" : "metric"}. Change.`}
      >
        {units === "field" ? "psi ft" : "bar m"}
      </button>
      <button
        type="button"
        className="top-choice"
        onClick={() => changeSettings({ skin: nextSkin })}
        aria-label={`Skin: ${skinNames[skin]}. Change to ${skinNames[nextSkin]}.`}
      >
        {skinNames[skin]}
      </button>
      {asking && <WhoDialog onClose={() => setAsking(false)} />}
    </header>
  );
}
