import { createHash } from 'node:crypto';

/**
 * The owner's page follows what happens: all of its script. Drawn anew at once, unless somebody is filling in an answer;
 * then a line says that something is new, and what they typed stays. So it does where the page is no older than a moment:
 * nothing may have it drawn again and again. Without script the page is as it was when opened.
 */
export const newsScript = `(()=>{
const line=document.getElementById('news');
if(!line||!window.EventSource)return;
let typing=false;
addEventListener('input',()=>{typing=true});
addEventListener('submit',()=>{typing=true});
const news=new EventSource(location.pathname+'/news?state='+line.dataset.state);
news.addEventListener('changed',()=>{
news.close();
if(typing||performance.now()<1500)line.hidden=false;
else if(location.search)location.replace(location.pathname);
else location.reload();
});
})()`;

/** For the content policy: this script and no other. */
export const newsScriptHash = `sha256-${createHash('sha256').update(newsScript).digest('base64')}`;
