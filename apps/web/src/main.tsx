import { createRoot } from 'react-dom/client';
import { App } from './app';
import { registerWorker } from './shared/worker';
import './styles/base.css';
import './styles/ui.css';
import './styles/screen.css';
import './styles/table.css';
import './styles/lists.css';
import './styles/figures.css';
import './styles/office.css';
import './styles/recall.css';
import './styles/print.css';

const root = document.getElementById('app');
if (root) createRoot(root).render(<App />);
registerWorker();
