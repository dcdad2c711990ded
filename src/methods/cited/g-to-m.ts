import { recalled, type Source } from "./source.ts";

/** Sources by key, g to m. */
export const fromGToM = {
  gardner2000: recalled(
    "Gardner IA, Stryhn H, Lind P, Collins MT. Conditional dependence between tests affects the diagnosis and surveillance of animal diseases. Preventive Veterinary Medicine 2000;45:107-122",
  ),
  gart1966: recalled(
    "Gart JJ, Buck AA. Comparison of a screening test and a reference test in epidemiologic studies II. American Journal of Epidemiology 1966;83:593-602",
  ),
  gelman1996: recalled(
    "Gelman A, Meng XL, Stern H. Posterior predictive assessment of model fitness via realized discrepancies. Statistica Sinica 1996;6:733-760",
  ),
  goodman1974: recalled(
    "Goodman LA. Exploratory latent structure analysis using both identifiable and unidentifiable models. Biometrika 1974;61:215-231",
  ),
  gordis2014: recalled("Gordis L. Epidemiology, 5th ed. Elsevier 2014, chapter 5"),
  gwet2008: recalled(
    "Gwet KL. Computing inter-rater reliability and its variance in the presence of high agreement. British Journal of Mathematical and Statistical Psychology 2008;61:29-48",
  ),
  gwet2014: recalled("Gwet KL. Handbook of Inter-Rater Reliability, 4th ed. Advanced Analytics 2014"),
  hadgu1996: recalled("Hadgu A. The discrepancy in discrepant analysis. Lancet 1996;348:592-593"),
  hamza2008: recalled(
    "Hamza TH, van Houwelingen HC, Stijnen T. The binomial distribution of meta-analysis was preferred to model within-study variability. Journal of Clinical Epidemiology 2008;61:41-51",
  ),
  hanley1982: recalled(
    "Hanley JA, McNeil BJ. The meaning and use of the area under a receiver operating characteristic (ROC) curve. Radiology 1982;143:29-36",
  ),
  hanley1983: recalled(
    "Hanley JA, Lippman-Hand A. If nothing goes wrong, is everything all right? Interpreting zero numerators. JAMA 1983;249:1743-1745",
  ),
  hanley1983curves: recalled(
    "Hanley JA, McNeil BJ. A method of comparing the areas under receiver operating characteristic curves derived from the same cases. Radiology 1983;148:839-843",
  ),
  harbord2007: recalled(
    "Harbord RM, Deeks JJ, Egger M, Whiting P, Sterne JAC. A unification of models for meta-analysis of diagnostic accuracy studies. Biostatistics 2007;8:239-251",
  ),
  harel2006: recalled(
    "Harel O, Zhou XH. Multiple imputation for correcting verification bias. Statistics in Medicine 2006;25:3769-3786",
  ),
  harville1977: recalled(
    "Harville DA. Maximum likelihood approaches to variance component estimation and to related problems. Journal of the American Statistical Association 1977;72:320-338",
  ),
  hemming2011: recalled(
    "Hemming K, Girling AJ, Sitch AJ, Marsh J, Lilford RJ. Sample size calculations for cluster randomised controlled trials with a fixed number of clusters. BMC Medical Research Methodology 2011;11:102",
  ),
  higgins2002: recalled(
    "Higgins JPT, Thompson SG. Quantifying heterogeneity in a meta-analysis. Statistics in Medicine 2002;21:1539-1558",
  ),
  higgins2009: recalled(
    "Higgins JPT, Thompson SG, Spiegelhalter DJ. A re-evaluation of random-effects meta-analysis. Journal of the Royal Statistical Society A 2009;172:137-159",
  ),
  holm1979: recalled(
    "Holm S. A simple sequentially rejective multiple test procedure. Scandinavian Journal of Statistics 1979;6:65-70",
  ),
  horvitz1952: recalled(
    "Horvitz DG, Thompson DJ. A generalization of sampling without replacement from a finite universe. Journal of the American Statistical Association 1952;47:663-685",
  ),
  hosmer1980: recalled(
    "Hosmer DW, Lemeshow S. Goodness of fit tests for the multiple logistic regression model. Communications in Statistics A 1980;9:1043-1069",
  ),
  hui1980: recalled(
    "Hui SL, Walter SD. Estimating the error rates of diagnostic tests. Biometrics 1980;36:167-171",
  ),
  hyndman1996: recalled(
    "Hyndman RJ, Fan Y. Sample quantiles in statistical packages. The American Statistician 1996;50:361-365",
  ),
  jaeschke1994: recalled(
    "Jaeschke R, Guyatt GH, Sackett DL. Users' guides to the medical literature III.B: how to use an article about a diagnostic test. JAMA 1994;271:703-707",
  ),
  knapp2003: recalled(
    "Knapp G, Hartung J. Improved tests for a random effects meta-regression with a single covariate. Statistics in Medicine 2003;22:2693-2710",
  ),
  joseph1995: recalled(
    "Joseph L, Gyorkos TW, Coupal L. Bayesian estimation of disease prevalence and the parameters of diagnostic tests in the absence of a gold standard. American Journal of Epidemiology 1995;141:263-272",
  ),
  koopman1984: recalled(
    "Koopman PAR. Confidence intervals for the ratio of two binomial proportions. Biometrics 1984;40:513-517",
  ),
  korn1998: recalled(
    "Korn EL, Graubard BI. Confidence intervals for proportions with small expected number of positive counts estimated from survey data. Survey Methodology 1998;24:193-201",
  ),
  kosinski2003: recalled(
    "Kosinski AS, Barnhart HX. A global sensitivity analysis of performance of a medical diagnostic test when verification bias is present. Statistics in Medicine 2003;22:2711-2721",
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
  littenberg1993: recalled(
    "Littenberg B, Moses LE. Estimating diagnostic accuracy from multiple conflicting reports: a new meta-analytic method. Medical Decision Making 1993;13:313-321",
  ),
  liu1994: recalled("Liu Q, Pierce DA. A note on Gauss-Hermite quadrature. Biometrika 1994;81:624-629"),
  liu2002: recalled(
    "Liu JP, Hsueh HM, Hsieh E, Chen JJ. Tests for equivalence or non-inferiority for paired binary data. Statistics in Medicine 2002;21:231-245",
  ),
  lott2020: recalled(
    "Lott A, Reiter JP. Wilson confidence intervals for binomial proportions with multiple imputation for missing data. The American Statistician 2020;74:109-115",
  ),
  louis1982: recalled(
    "Louis TA. Finding the observed information matrix when using the EM algorithm. Journal of the Royal Statistical Society B 1982;44:226-233",
  ),
  mann1947: recalled(
    "Mann HB, Whitney DR. On a test of whether one of two random variables is stochastically larger than the other. Annals of Mathematical Statistics 1947;18:50-60",
  ),
  manski2003: recalled("Manski CF. Partial Identification of Probability Distributions. Springer 2003"),
  mantel1959: recalled(
    "Mantel N, Haenszel W. Statistical aspects of the analysis of data from retrospective studies of disease. Journal of the National Cancer Institute 1959;22:719-748",
  ),
  massart1990: recalled(
    "Massart P. The tight constant in the Dvoretzky-Kiefer-Wolfowitz inequality. Annals of Probability 1990;18:1269-1283",
  ),
  mcclish1989: recalled(
    "McClish DK. Analyzing a portion of the ROC curve. Medical Decision Making 1989;9:190-195",
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
  metz1978: recalled(
    "Metz CE. Basic principles of ROC analysis. Seminars in Nuclear Medicine 1978;8:283-298",
  ),
  miettinen1985: recalled(
    "Miettinen O, Nurminen M. Comparative analysis of two rates. Statistics in Medicine 1985;4:213-226",
  ),
  moses1993: recalled(
    "Moses LE, Shapiro D, Littenberg B. Combining independent studies of a diagnostic test into a summary ROC curve: data-analytic approaches and some additional considerations. Statistics in Medicine 1993;12:1293-1316",
  ),
  moskowitz2006: recalled(
    "Moskowitz CS, Pepe MS. Comparing the predictive values of diagnostic tests: sample size and analysis for paired study designs. Clinical Trials 2006;3:272-279",
  ),
  murphy1973: recalled(
    "Murphy AH. A new vector partition of the probability score. Journal of Applied Meteorology 1973;12:595-600",
  ),
} as const satisfies Readonly<Record<string, Source>>;
