import './theme.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { apiClientOver } from './api/apiClient.ts';
import { hostCarrier } from './api/hostCarrier.ts';
import { App } from './shell/App.tsx';

const root = document.getElementById('root');
if (!root) throw new Error('index.html has no element "root".');
createRoot(root).render(
  <StrictMode>
    <App api={apiClientOver(hostCarrier())} />
  </StrictMode>,
);
