/** A publication or document that a method or a worked example names. */
export interface Source {
  readonly citation: string;
  /**
   * `true`: the formula or the numbers used here were read in the document itself. `false`: they were
   * recalled from memory; the numbers are recomputed, the wording of the document was not checked.
   */
  readonly seen: boolean;
}

const recalled = (citation: string): Source => ({ citation, seen: false });
const read = (citation: string): Source => ({ citation, seen: true });

/** Every source that a method or worked example of the catalogue names, by its key. */
export const sources = {
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
  blackwelder1982: recalled(
    "Blackwelder WC. 'Proving the null hypothesis' in clinical trials. Controlled Clinical Trials 1982;3:345-353",
  ),
  blaker2000: recalled(
    "Blaker H. Confidence curves and improved exact confidence intervals for discrete distributions. Canadian Journal of Statistics 2000;28:783-798",
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
  donner2000: recalled(
    "Donner A, Klar N. Design and Analysis of Cluster Randomization Trials in Health Research. Arnold 2000",
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
  freeman1951: recalled(
    "Freeman GH, Halton JH. Note on an exact treatment of contingency, goodness of fit and other problems of significance. Biometrika 1951;38:141-149",
  ),
  gwet2008: recalled(
    "Gwet KL. Computing inter-rater reliability and its variance in the presence of high agreement. British Journal of Mathematical and Statistical Psychology 2008;61:29-48",
  ),
  gwet2014: recalled("Gwet KL. Handbook of Inter-Rater Reliability, 4th ed. Advanced Analytics 2014"),
  hanley1983: recalled(
    "Hanley JA, Lippman-Hand A. If nothing goes wrong, is everything all right? Interpreting zero numerators. JAMA 1983;249:1743-1745",
  ),
  hemming2011: recalled(
    "Hemming K, Girling AJ, Sitch AJ, Marsh J, Lilford RJ. Sample size calculations for cluster randomised controlled trials with a fixed number of clusters. BMC Medical Research Methodology 2011;11:102",
  ),
  holm1979: recalled(
    "Holm S. A simple sequentially rejective multiple test procedure. Scandinavian Journal of Statistics 1979;6:65-70",
  ),
  jaeschke1994: recalled(
    "Jaeschke R, Guyatt GH, Sackett DL. Users' guides to the medical literature III.B: how to use an article about a diagnostic test. JAMA 1994;271:703-707",
  ),
  koopman1984: recalled(
    "Koopman PAR. Confidence intervals for the ratio of two binomial proportions. Biometrics 1984;40:513-517",
  ),
  korn1998: recalled(
    "Korn EL, Graubard BI. Confidence intervals for proportions with small expected number of positive counts estimated from survey data. Survey Methodology 1998;24:193-201",
  ),
  kosinski2013: recalled(
    "Kosinski AS. A weighted generalized score statistic for comparison of predictive values of diagnostic tests. Statistics in Medicine 2013;32:964-977",
  ),
  krippendorff2011: recalled("Krippendorff K. Computing Krippendorff's alpha-reliability. 2011"),
  lan1983: recalled(
    "Lan KKG, DeMets DL. Discrete sequential boundaries for clinical trials. Biometrika 1983;70:659-663",
  ),
  landis1977: recalled(
    "Landis JR, Koch GG. The measurement of observer agreement for categorical data. Biometrics 1977;33:159-174",
  ),
  lang2014: recalled(
    "Lang Z, Reiczigel J. Confidence limits for prevalence of disease adjusted for estimated sensitivity and specificity. Preventive Veterinary Medicine 2014;113:13-22",
  ),
  leisenring2000: recalled(
    "Leisenring W, Alonzo T, Pepe MS. Comparisons of predictive values of binary medical diagnostic tests for paired designs. Biometrics 2000;56:345-351",
  ),
  liu2002: recalled(
    "Liu JP, Hsueh HM, Hsieh E, Chen JJ. Tests for equivalence or non-inferiority for paired binary data. Statistics in Medicine 2002;21:231-245",
  ),
  mantel1959: recalled(
    "Mantel N, Haenszel W. Statistical aspects of the analysis of data from retrospective studies of disease. Journal of the National Cancer Institute 1959;22:719-748",
  ),
  mcnemar1947: recalled(
    "McNemar Q. Note on the sampling error of the difference between correlated proportions or percentages. Psychometrika 1947;12:153-157",
  ),
  mee1984: recalled(
    "Mee RW. Confidence bounds for the difference between two probabilities. Biometrics 1984;40:1175-1176",
  ),
  mehta1983: recalled(
    "Mehta CR, Patel NR. A network algorithm for performing Fisher's exact test in r x c contingency tables. Journal of the American Statistical Association 1983;78:427-434",
  ),
  mercaldo2007: recalled(
    "Mercaldo ND, Lau KF, Zhou XH. Confidence intervals for predictive values with an emphasis to case-control studies. Statistics in Medicine 2007;26:2170-2183",
  ),
  miettinen1985: recalled(
    "Miettinen O, Nurminen M. Comparative analysis of two rates. Statistics in Medicine 1985;4:213-226",
  ),
  moskowitz2006: recalled(
    "Moskowitz CS, Pepe MS. Comparing the predictive values of diagnostic tests: sample size and analysis for paired study designs. Clinical Trials 2006;3:272-279",
  ),
  newcombe1998: recalled(
    "Newcombe RG. Two-sided confidence intervals for the single proportion: comparison of seven methods. Statistics in Medicine 1998;17:857-872",
  ),
  newcombe1998difference: recalled(
    "Newcombe RG. Interval estimation for the difference between independent proportions: comparison of eleven methods. Statistics in Medicine 1998;17:873-890",
  ),
  newcombe1998paired: recalled(
    "Newcombe RG. Improved confidence intervals for the difference between binomial proportions based on paired data. Statistics in Medicine 1998;17:2635-2650",
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
  pampallona2001: recalled(
    "Pampallona S, Tsiatis AA, Kim KM. Interim monitoring of group sequential trials using spending functions for the type I and type II error probabilities. Drug Information Journal 2001;35:1113-1121",
  ),
  pepe2003: recalled(
    "Pepe MS. The Statistical Evaluation of Medical Tests for Classification and Prediction. Oxford University Press 2003",
  ),
  piegorsch2004: recalled(
    "Piegorsch WW. Sample sizes for improved binomial confidence intervals. Computational Statistics and Data Analysis 2004;46:309-316",
  ),
  pocock1977: recalled(
    "Pocock SJ. Group sequential methods in the design and analysis of clinical trials. Biometrika 1977;64:191-199",
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
  rao1992: recalled(
    "Rao JNK, Scott AJ. A simple method for the analysis of clustered binary data. Biometrics 1992;48:577-585",
  ),
  reiczigel2010: recalled(
    "Reiczigel J, Földi J, Ózsvári L. Exact confidence limits for prevalence of a disease with an imperfect diagnostic test. Epidemiology and Infection 2010;138:1674-1678",
  ),
  robins1986: recalled(
    "Robins J, Breslow N, Greenland S. Estimators of the Mantel-Haenszel variance consistent in both sparse data and large-strata limiting models. Biometrics 1986;42:311-323",
  ),
  rogan1978: recalled(
    "Rogan WJ, Gladen B. Estimating prevalence from the results of a screening test. American Journal of Epidemiology 1978;107:71-76",
  ),
  schultz1973: recalled(
    "Schultz JR, Nichol FR, Elfring GL, Weed SD. Multiple-stage procedures for drug screening. Biometrics 1973;29:293-300",
  ),
  scipy_barnard_exact: read("SciPy 1.10.1 reference, stats.barnard_exact, example on the page"),
  scipy_binomtest: read("SciPy 1.7.1 reference, stats, BinomTestResult.proportion_ci, example on the page"),
  scott1955: recalled(
    "Scott WA. Reliability of content analysis: the case of nominal scale coding. Public Opinion Quarterly 1955;19:321-325",
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
  spiegelhalter1986: recalled(
    "Spiegelhalter DJ, Freedman LS. A predictive approach to selecting the size of a clinical trial, based on subjective clinical opinion. Statistics in Medicine 1986;5:1-13",
  ),
  spiegelhalter2005: recalled(
    "Spiegelhalter DJ. Funnel plots for comparing institutional performance. Statistics in Medicine 2005;24:1185-1202, appendix A.1",
  ),
  tango1998: recalled(
    "Tango T. Equivalence test and confidence interval for the difference in proportions for the paired-sample design. Statistics in Medicine 1998;17:891-908",
  ),
  tchen1980: recalled(
    "Tchen AH. Inequalities for distributions with given marginals. Annals of Probability 1980;8:814-827",
  ),
  wilson1927: recalled(
    "Wilson EB. Probable inference, the law of succession, and statistical inference. Journal of the American Statistical Association 1927;22:209-212",
  ),
  woolf1955: recalled(
    "Woolf B. On estimating the relation between blood group and disease. Annals of Human Genetics 1955;19:251-253",
  ),
  youden1950: recalled("Youden WJ. Index for rating diagnostic tests. Cancer 1950;3:32-35"),
  zou2008: recalled(
    "Zou GY, Donner A. Construction of confidence limits about effect measures: a general approach. Statistics in Medicine 2008;27:1693-1702",
  ),
} as const satisfies Readonly<Record<string, Source>>;

export type SourceKey = keyof typeof sources;
