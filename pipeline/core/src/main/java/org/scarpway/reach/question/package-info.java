/** Questions of reach and corridors and their answers: plain values, no computing. */
package org.scarpway.reach.question;
