import { recalled, type Source } from "./source.ts";

/** Sources by key, a to f. */
export const fromAToF = {
  agresti1998: recalled(
    "Agresti A, Coull BA. Approximate is better than 'exact' for interval estimation of binomial proportions. The American Statistician 1998;52:119-126",
  ),
  agresti2000: recalled(
    "Agresti A, Caffo B. Simple and effective confidence intervals for proportions and differences of proportions result from adding two successes and two failures. The American Statistician 2000;54:280-288",
  ),
  agresti2002: recalled("Agresti A. Categorical Data Analysis, 2nd ed. Wiley 2002"),
  aitken1936: recalled(
    "Aitken AC, Gonin HT. On fourfold sampling with and without replacement. Proceedings of the Royal Society of Edinburgh 1936;55:114-125",
  ),
  alonzo1999: recalled(
    "Alonzo TA, Pepe MS. Using a combination of reference tests to assess the accuracy of a new diagnostic test. Statistics in Medicine 1999;18:2987-3003",
  ),
  alonzo2005: recalled(
    "Alonzo TA, Pepe MS. Assessing accuracy of a continuous screening test in the presence of verification bias. Journal of the Royal Statistical Society C 2005;54:173-190",
  ),
  altman1994: recalled(
    "Altman DG, Bland JM. Diagnostic tests 1: sensitivity and specificity. BMJ 1994;308:1552; Diagnostic tests 2: predictive values. BMJ 1994;309:102",
  ),
  anisimov2007: recalled(
    "Anisimov VV, Fedorov VV. Modelling, prediction and adaptive adjustment of recruitment in multicentre trials. Statistics in Medicine 2007;26:4958-4975",
  ),
  armitage1955: recalled(
    "Armitage P. Tests for linear trends in proportions and frequencies. Biometrics 1955;11:375-386",
  ),
  barnard1947: recalled("Barnard GA. Significance tests for 2 x 2 tables. Biometrika 1947;34:123-138"),
  beal1989: recalled(
    "Beal SL. Sample size determination for confidence intervals on the population mean and on the difference between two population means. Biometrics 1989;45:969-977",
  ),
  begg1983: recalled(
    "Begg CB, Greenes RA. Assessment of diagnostic tests when disease verification is subject to selection bias. Biometrics 1983;39:207-215",
  ),
  benjamini1995: recalled(
    "Benjamini Y, Hochberg Y. Controlling the false discovery rate: a practical and powerful approach to multiple testing. Journal of the Royal Statistical Society B 1995;57:289-300",
  ),
  bennett1954: recalled(
    "Bennett EM, Alpert R, Goldstein AC. Communications through limited-response questioning. Public Opinion Quarterly 1954;18:303-308",
  ),
  berger1982: recalled(
    "Berger RL. Multiparameter hypothesis testing and acceptance sampling. Technometrics 1982;24:295-300",
  ),
  berger1994: recalled(
    "Berger RL, Boos DD. P values maximized over a confidence set for the nuisance parameter. Journal of the American Statistical Association 1994;89:1012-1016",
  ),
  bishop1975: recalled(
    "Bishop YMM, Fienberg SE, Holland PW. Discrete Multivariate Analysis: Theory and Practice. MIT Press 1975, chapters 11 and 14",
  ),
  blackwelder1982: recalled(
    "Blackwelder WC. 'Proving the null hypothesis' in clinical trials. Controlled Clinical Trials 1982;3:345-353",
  ),
  blaker2000: recalled(
    "Blaker H. Confidence curves and improved exact confidence intervals for discrete distributions. Canadian Journal of Statistics 2000;28:783-798",
  ),
  brier1950: recalled(
    "Brier GW. Verification of forecasts expressed in terms of probability. Monthly Weather Review 1950;78:1-3",
  ),
  brown2001: recalled(
    "Brown LD, Cai TT, DasGupta A. Interval estimation for a binomial proportion. Statistical Science 2001;16:101-133",
  ),
  buderer1996: recalled(
    "Buderer NMF. Statistical methodology: I. Incorporating the prevalence of disease into the sample size calculation for sensitivity and specificity. Academic Emergency Medicine 1996;3:895-900",
  ),
  byrt1993: recalled(
    "Byrt T, Bishop J, Carlin JB. Bias, prevalence and kappa. Journal of Clinical Epidemiology 1993;46:423-429",
  ),
  campbell1994: recalled(
    "Campbell G. Advances in statistical methodology for the evaluation of diagnostic and laboratory tests. Statistics in Medicine 1994;13:499-508",
  ),
  cannon1982: recalled(
    "Cannon RM, Roe RT. Livestock Disease Surveys: A Field Manual for Veterinarians. Australian Bureau of Animal Health 1982",
  ),
  chan1999: recalled(
    "Chan ISF, Zhang Z. Test-based exact confidence intervals for the difference of two binomial proportions. Biometrics 1999;55:1202-1209",
  ),
  cheng1997: recalled(
    "Cheng H, Macaluso M. Comparison of the accuracy of two tests with a confirmatory procedure limited to positive results. Epidemiology 1997;8:104-106",
  ),
  chernick2002: recalled(
    "Chernick MR, Liu CY. The saw-toothed behavior of power versus sample size and software solutions: single binomial proportion using exact methods. The American Statistician 2002;56:149-155",
  ),
  chu2006: recalled(
    "Chu H, Cole SR. Bivariate meta-analysis of sensitivity and specificity with sparse data: a generalized linear mixed model approach. Journal of Clinical Epidemiology 2006;59:1331-1332",
  ),
  cicchetti1990: recalled(
    "Cicchetti DV, Feinstein AR. High agreement but low kappa: II. Resolving the paradoxes. Journal of Clinical Epidemiology 1990;43:551-558",
  ),
  clopper1934: recalled(
    "Clopper CJ, Pearson ES. The use of confidence or fiducial limits illustrated in the case of the binomial. Biometrika 1934;26:404-413",
  ),
  cochran1954: recalled(
    "Cochran WG. Some methods for strengthening the common chi-square tests. Biometrics 1954;10:417-451",
  ),
  cohen1960: recalled(
    "Cohen J. A coefficient of agreement for nominal scales. Educational and Psychological Measurement 1960;20:37-46",
  ),
  cohen1968: recalled(
    "Cohen J. Weighted kappa: nominal scale agreement with provision for scaled disagreement or partial credit. Psychological Bulletin 1968;70:213-220",
  ),
  connor1987: recalled(
    "Connor RJ. Sample size for testing differences in proportions for the paired-sample design. Biometrics 1987;43:207-211",
  ),
  conover1971: recalled("Conover WJ. Practical Nonparametric Statistics. Wiley 1971:97-104"),
  cook1977: recalled(
    "Cook RD. Detection of influential observation in linear regression. Technometrics 1977;19:15-18",
  ),
  cornish1938: recalled(
    "Cornish EA, Fisher RA. Moments and cumulants in the specification of distributions. Revue de l'Institut International de Statistique 1938;5:307-320",
  ),
  cox1958: recalled(
    "Cox DR. Two further applications of a model for binary regression. Biometrika 1958;45:562-565",
  ),
  deeks2005: recalled(
    "Deeks JJ, Macaskill P, Irwig L. The performance of tests of publication bias and other sample size effects in systematic reviews of diagnostic test accuracy was assessed. Journal of Clinical Epidemiology 2005;58:882-893",
  ),
  delong1988: recalled(
    "DeLong ER, DeLong DM, Clarke-Pearson DL. Comparing the areas under two or more correlated receiver operating characteristic curves: a nonparametric approach. Biometrics 1988;44:837-845",
  ),
  davies1973: recalled(
    "Davies RB. Numerical inversion of a characteristic function. Biometrika 1973;60:415-417",
  ),
  dempster1977: recalled(
    "Dempster AP, Laird NM, Rubin DB. Maximum likelihood from incomplete data via the EM algorithm. Journal of the Royal Statistical Society B 1977;39:1-38",
  ),
  dersimonian1986: recalled(
    "DerSimonian R, Laird N. Meta-analysis in clinical trials. Controlled Clinical Trials 1986;7:177-188",
  ),
  dendukuri2001: recalled(
    "Dendukuri N, Joseph L. Bayesian approaches to modeling the conditional dependence between multiple diagnostic tests. Biometrics 2001;57:158-167",
  ),
  donner2000: recalled(
    "Donner A, Klar N. Design and Analysis of Cluster Randomization Trials in Health Research. Arnold 2000",
  ),
  dorfman1969: recalled(
    "Dorfman DD, Alf E. Maximum-likelihood estimation of parameters of signal-detection theory and determination of confidence intervals: rating-method data. Journal of Mathematical Psychology 1969;6:487-496",
  ),
  dunn1996: recalled(
    "Dunn PK, Smyth GK. Randomized quantile residuals. Journal of Computational and Graphical Statistics 1996;5:236-244",
  ),
  edwards1948: recalled(
    'Edwards AL. Note on the "correction for continuity" in testing the significance of the difference between correlated proportions. Psychometrika 1948;13:185-187',
  ),
  efron1993: recalled("Efron B, Tibshirani RJ. An Introduction to the Bootstrap. Chapman and Hall 1993"),
  encyclopaedia_fleiss: recalled(
    "Open encyclopaedia, article 'Fleiss' kappa', worked example of 10 subjects, 14 raters and 5 categories",
  ),
  encyclopaedia_kappa: recalled(
    "Open encyclopaedia, article 'Cohen's kappa', worked example of 50 grant proposals",
  ),
  fagan1975: recalled("Fagan TJ. Nomogram for Bayes's theorem. New England Journal of Medicine 1975;293:257"),
  fagerland2013: recalled(
    "Fagerland MW, Lydersen S, Laake P. The McNemar test for binary matched-pairs data: mid-p and asymptotic are better than exact conditional. BMC Medical Research Methodology 2013;13:91",
  ),
  farrington1990: recalled(
    "Farrington CP, Manning G. Test statistics and sample size formulae for comparative binomial trials with null hypothesis of non-zero risk difference or non-unity relative risk. Statistics in Medicine 1990;9:1447-1454",
  ),
  fda2007: recalled(
    "US Food and Drug Administration. Statistical guidance on reporting results from studies evaluating diagnostic tests. 2007",
  ),
  feinstein1990: recalled(
    "Feinstein AR, Cicchetti DV. High agreement but low kappa: I. The problems of two paradoxes. Journal of Clinical Epidemiology 1990;43:543-549",
  ),
  fieller1954: recalled(
    "Fieller EC. Some problems in interval estimation. Journal of the Royal Statistical Society B 1954;16:175-185",
  ),
  finney1971: recalled("Finney DJ. Probit Analysis, 3rd ed. Cambridge University Press 1971"),
  fisher1935: recalled(
    "Fisher RA. The logic of inductive inference. Journal of the Royal Statistical Society 1935;98:39-54",
  ),
  flahault2005: recalled(
    "Flahault A, Cadilhac M, Thomas G. Sample size calculation should be performed for design accuracy in diagnostic test studies. Journal of Clinical Epidemiology 2005;58:859-862",
  ),
  fleiss1969: recalled(
    "Fleiss JL, Cohen J, Everitt BS. Large sample standard errors of kappa and weighted kappa. Psychological Bulletin 1969;72:323-327",
  ),
  fleiss1971: recalled(
    "Fleiss JL. Measuring nominal scale agreement among many raters. Psychological Bulletin 1971;76:378-382",
  ),
  fleiss1979: recalled(
    "Fleiss JL, Cuzick J. The reliability of dichotomous judgments: unequal numbers of judges per subject. Applied Psychological Measurement 1979;3:537-542",
  ),
  fleiss1979kappa: recalled(
    "Fleiss JL, Nee JCM, Landis JR. Large sample variance of kappa in the case of different sets of raters. Psychological Bulletin 1979;86:974-977",
  ),
  fleiss1980: recalled(
    "Fleiss JL, Tytun A, Ury HK. A simple approximation for calculating sample sizes for comparing independent proportions. Biometrics 1980;36:343-346",
  ),
  fleiss1981: recalled("Fleiss JL. Statistical Methods for Rates and Proportions, 2nd ed. Wiley 1981:139"),
  fleiss1981kappa: recalled(
    "Fleiss JL. Statistical Methods for Rates and Proportions, 2nd ed. Wiley 1981, chapter 13",
  ),
  frechet1951: recalled(
    "Fréchet M. Sur les tableaux de corrélation dont les marges sont données. Annales de l'Université de Lyon 1951;A14:53-77",
  ),
  freedman1981: recalled(
    "Freedman D, Diaconis P. On the histogram as a density estimator: L2 theory. Zeitschrift für Wahrscheinlichkeitstheorie und verwandte Gebiete 1981;57:453-476",
  ),
  freeman1951: recalled(
    "Freeman GH, Halton JH. Note on an exact treatment of contingency, goodness of fit and other problems of significance. Biometrika 1951;38:141-149",
  ),
} as const satisfies Readonly<Record<string, Source>>;
