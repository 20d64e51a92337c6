import { useState } from 'react';
import { Choice } from '../../ui';
import { chosenTheme, chooseTheme, themes, type Theme } from '../../ui/theme';

const words: Readonly<Record<Theme, string>> = { 'by-itself': 'By itself', day: 'Day', night: 'Night' };

/** Light or dark: by itself after dusk, or as somebody wants it on this device. */
export function NightSwitch() {
  const [theme, setTheme] = useState(chosenTheme);
  return (
    <div className="night-switch" onClick={(event) => event.stopPropagation()}>
      <Choice
        label="Light on this device"
        value={theme}
        options={themes.map((value) => ({ value, text: words[value] }))}
        onChange={(chosen) => {
          chooseTheme(chosen);
          setTheme(chosen);
        }}
      />
    </div>
  );
}
