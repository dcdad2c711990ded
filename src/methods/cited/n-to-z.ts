import { read, recalled, type Source } from "./source.ts";

/** Sources by key, n to z. */
export const fromNToZ = {
  newcombe1998: recalled(
    "Newcombe RG. Two-sided confidence intervals for the single proportion: comparison of seven methods. Statistics in Medicine 1998;17:857-872",
  ),
  newcombe1998difference: recalled(
    "Newcombe RG. Interval estimation for the difference between independent proportions: comparison of eleven methods. Statistics in Medicine 1998;17:873-890",
  ),
  newcombe1998paired: recalled(
    "Newcombe RG. Improved confidence intervals for the difference between binomial proportions based on paired data. Statistics in Medicine 1998;17:2635-2650",
  ),
  newcombe2006auc: recalled(
    "Newcombe RG. Confidence intervals for an effect size measure based on the Mann-Whitney statistic. Part 2: asymptotic methods and evaluation. Statistics in Medicine 2006;25:559-573",
  ),
  obrien1979: recalled(
    "O'Brien PC, Fleming TR. A multiple testing procedure for clinical trials. Biometrics 1979;35:549-556",
  ),
  obuchowski1998: recalled(
    "Obuchowski NA. On the comparison of correlated proportions for clustered data. Statistics in Medicine 1998;17:1495-1507",
  ),
  ohagan2005: recalled(
    "O'Hagan A, Stevens JW, Campbell MJ. Assurance in clinical trial design. Pharmaceutical Statistics 2005;4:187-201",
  ),
  ohagan2006: recalled(
    "O'Hagan A, Buck CE, Daneshkhah A, Eiser JR, Garthwaite PH, Jenkinson DJ, Oakley JE, Rakow T. Uncertain Judgements: Eliciting Experts' Probabilities. Wiley 2006",
  ),
  owen1988: recalled(
    "Owen AB. Empirical likelihood ratio confidence intervals for a single functional. Biometrika 1988;75:237-249",
  ),
  pampallona2001: recalled(
    "Pampallona S, Tsiatis AA, Kim KM. Interim monitoring of group sequential trials using spending functions for the type I and type II error probabilities. Drug Information Journal 2001;35:1113-1121",
  ),
  paule1982: recalled(
    "Paule RC, Mandel J. Consensus values and weighting factors. Journal of Research of the National Bureau of Standards 1982;87:377-385",
  ),
  pepe2003: recalled(
    "Pepe MS. The Statistical Evaluation of Medical Tests for Classification and Prediction. Oxford University Press 2003",
  ),
  perkins2006: recalled(
    "Perkins NJ, Schisterman EF. The inconsistency of 'optimal' cutpoints obtained using two criteria based on the receiver operating characteristic curve. American Journal of Epidemiology 2006;163:670-675",
  ),
  piegorsch2004: recalled(
    "Piegorsch WW. Sample sizes for improved binomial confidence intervals. Computational Statistics and Data Analysis 2004;46:309-316",
  ),
  pinheiro1995: recalled(
    "Pinheiro JC, Bates DM. Approximations to the log-likelihood function in the nonlinear mixed-effects model. Journal of Computational and Graphical Statistics 1995;4:12-35",
  ),
  plackett1965: recalled(
    "Plackett RL. A class of bivariate distributions. Journal of the American Statistical Association 1965;60:516-522",
  ),
  pocock1977: recalled(
    "Pocock SJ. Group sequential methods in the design and analysis of clinical trials. Biometrika 1977;64:191-199",
  ),
  presanis2013: recalled(
    "Presanis AM, Ohlssen D, Spiegelhalter DJ, De Angelis D. Conflict diagnostics in directed acyclic graphs, with applications in Bayesian evidence synthesis. Statistical Science 2013;28:376-397",
  ),
  r_binom_test: read("R 4.2.2, stats package, manual page and output of the examples of binom.test"),
  r_fisher_test: read("R 4.2.2, stats package, manual page and output of the examples of fisher.test"),
  r_mantelhaen_test: read(
    "R 4.2.2, stats package, manual page and output of the examples of mantelhaen.test",
  ),
  r_power_prop_test: read(
    "R 4.2.2, stats package, manual page and output of the examples of power.prop.test",
  ),
  r_prop_test: read("R 4.2.2, stats package, manual page and output of the examples of prop.test"),
  r_prop_trend_test: read(
    "R 4.2.2, stats package, manual page and output of the examples of prop.trend.test",
  ),
  qu1996: recalled(
    "Qu Y, Tan M, Kutner MH. Random effects models in latent class analysis for evaluating accuracy of diagnostic tests. Biometrics 1996;52:797-810",
  ),
  rao1992: recalled(
    "Rao JNK, Scott AJ. A simple method for the analysis of clustered binary data. Biometrics 1992;48:577-585",
  ),
  reiczigel2010: recalled(
    "Reiczigel J, Földi J, Ózsvári L. Exact confidence limits for prevalence of a disease with an imperfect diagnostic test. Epidemiology and Infection 2010;138:1674-1678",
  ),
  reitsma2005: recalled(
    "Reitsma JB, Glas AS, Rutjes AWS, Scholten RJPM, Bossuyt PM, Zwinderman AH. Bivariate analysis of sensitivity and specificity produces informative summary measures in diagnostic reviews. Journal of Clinical Epidemiology 2005;58:982-990",
  ),
  riley2007: recalled(
    "Riley RD, Abrams KR, Sutton AJ, Lambert PC, Thompson JR. Bivariate random-effects meta-analysis and the estimation of between-study correlation. BMC Medical Research Methodology 2007;7:3",
  ),
  robins1986: recalled(
    "Robins J, Breslow N, Greenland S. Estimators of the Mantel-Haenszel variance consistent in both sparse data and large-strata limiting models. Biometrics 1986;42:311-323",
  ),
  rogan1978: recalled(
    "Rogan WJ, Gladen B. Estimating prevalence from the results of a screening test. American Journal of Epidemiology 1978;107:71-76",
  ),
  rubin1981: recalled(
    "Rubin DB. Estimation in parallel randomized experiments. Journal of Educational Statistics 1981;6:377-401",
  ),
  rubin1987: recalled("Rubin DB. Multiple Imputation for Nonresponse in Surveys. Wiley 1987"),
  schultz1973: recalled(
    "Schultz JR, Nichol FR, Elfring GL, Weed SD. Multiple-stage procedures for drug screening. Biometrics 1973;29:293-300",
  ),
  scipy_barnard_exact: read("SciPy 1.10.1 reference, stats.barnard_exact, example on the page"),
  scipy_binomtest: read("SciPy 1.7.1 reference, stats, BinomTestResult.proportion_ci, example on the page"),
  scott1955: recalled(
    "Scott WA. Reliability of content analysis: the case of nominal scale coding. Public Opinion Quarterly 1955;19:321-325",
  ),
  self1987: recalled(
    "Self SG, Liang KY. Asymptotic properties of maximum likelihood estimators and likelihood ratio tests under nonstandard conditions. Journal of the American Statistical Association 1987;82:605-610",
  ),
  silvapulle1981: recalled(
    "Silvapulle MJ. On the existence of maximum likelihood estimators for the binomial response models. Journal of the Royal Statistical Society B 1981;43:310-313",
  ),
  simel1987: recalled(
    "Simel DL, Feussner JR, DeLong ER, Matchar DB. Intermediate, indeterminate, and uninterpretable diagnostic test results. Medical Decision Making 1987;7:107-114",
  ),
  simel1991: recalled(
    "Simel DL, Samsa GP, Matchar DB. Likelihood ratios with confidence: sample size estimation for diagnostic test studies. Journal of Clinical Epidemiology 1991;44:763-770",
  ),
  simon1989: recalled(
    "Simon R. Optimal two-stage designs for phase II clinical trials. Controlled Clinical Trials 1989;10:1-10",
  ),
  smirnov1948: recalled(
    "Smirnov N. Table for estimating the goodness of fit of empirical distributions. Annals of Mathematical Statistics 1948;19:279-281",
  ),
  spearman1904: recalled(
    "Spearman C. The proof and measurement of association between two things. American Journal of Psychology 1904;15:72-101",
  ),
  spiegelhalter1986: recalled(
    "Spiegelhalter DJ, Freedman LS. A predictive approach to selecting the size of a clinical trial, based on subjective clinical opinion. Statistics in Medicine 1986;5:1-13",
  ),
  spiegelhalter1986calibration: recalled(
    "Spiegelhalter DJ. Probabilistic prediction in patient management and clinical trials. Statistics in Medicine 1986;5:421-433",
  ),
  spiegelhalter2005: recalled(
    "Spiegelhalter DJ. Funnel plots for comparing institutional performance. Statistics in Medicine 2005;24:1185-1202, appendix A.1",
  ),
  staquet1981: recalled(
    "Staquet M, Rozencweig M, Lee YJ, Muggia FM. Methodology for the assessment of new dichotomous diagnostic tests. Journal of Chronic Diseases 1981;34:599-610",
  ),
  stephenson2008: recalled(
    "Stephenson DB, Coelho CAS, Jolliffe IT. Two extra components in the Brier score decomposition. Weather and Forecasting 2008;23:752-757",
  ),
  sun2014: recalled(
    "Sun X, Xu W. Fast implementation of DeLong's algorithm for comparing the areas under correlated receiver operating characteristic curves. IEEE Signal Processing Letters 2014;21:1389-1393",
  ),
  tango1998: recalled(
    "Tango T. Equivalence test and confidence interval for the difference in proportions for the paired-sample design. Statistics in Medicine 1998;17:891-908",
  ),
  tchen1980: recalled(
    "Tchen AH. Inequalities for distributions with given marginals. Annals of Probability 1980;8:814-827",
  ),
  vacek1985: recalled(
    "Vacek PM. The effect of conditional dependence on the evaluation of diagnostic tests. Biometrics 1985;41:959-968",
  ),
  viechtbauer2005: recalled(
    "Viechtbauer W. Bias and efficiency of meta-analytic variance estimators in the random-effects model. Journal of Educational and Behavioral Statistics 2005;30:261-293",
  ),
  viechtbauer2007: recalled(
    "Viechtbauer W. Confidence intervals for the amount of heterogeneity in meta-analysis. Statistics in Medicine 2007;26:37-52",
  ),
  vehtari2021: recalled(
    "Vehtari A, Gelman A, Simpson D, Carpenter B, Bürkner PC. Rank-normalization, folding, and localization: an improved R-hat for assessing convergence of MCMC. Bayesian Analysis 2021;16:667-718",
  ),
  wilson1927: recalled(
    "Wilson EB. Probable inference, the law of succession, and statistical inference. Journal of the American Statistical Association 1927;22:209-212",
  ),
  woolf1955: recalled(
    "Woolf B. On estimating the relation between blood group and disease. Annals of Human Genetics 1955;19:251-253",
  ),
  youden1950: recalled("Youden WJ. Index for rating diagnostic tests. Cancer 1950;3:32-35"),
  zhou2011: recalled(
    "Zhou XH, Obuchowski NA, McClish DK. Statistical Methods in Diagnostic Medicine, 2nd ed. Wiley 2011",
  ),
  zou2008: recalled(
    "Zou GY, Donner A. Construction of confidence limits about effect measures: a general approach. Statistics in Medicine 2008;27:1693-1702",
  ),
} as const satisfies Readonly<Record<string, Source>>;
