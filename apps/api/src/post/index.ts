/** What other subjects need to send mail: `queueMail`, within the transaction of what the mail tells of. */

export { mailSecret } from './mail-link.ts';
export { LINK, type MailToQueue, queueMail } from './queue-mail.ts';
