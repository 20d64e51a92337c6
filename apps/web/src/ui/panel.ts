import { createContext } from 'react';

/** What stands in the panel beside a list, and how it is closed; null for what is a page of its own. */
export const InPanel = createContext<{ readonly onClose: () => void } | null>(null);
