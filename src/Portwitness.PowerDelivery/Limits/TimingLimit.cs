namespace Portwitness.PowerDelivery.Limits;

/// <summary>One row of the standard's tables of times. What a row does not give is null.</summary>
/// <param name="Name">The parameter, spelled as in the standard; SPR and EPR rows of one parameter stand apart.</param>
/// <param name="MinUs">Shortest, in microseconds.</param>
/// <param name="NomUs">Nominal, in microseconds.</param>
/// <param name="MaxUs">Longest, in microseconds.</param>
/// <param name="Editions">Editions in which these values hold, or may hold.</param>
/// <param name="Confirmed">Those of them for which a source was read; in the others the values are from memory or disputed.</param>
/// <param name="Clause">Edition and table.</param>
/// <param name="Measured">From where to where.</param>
public readonly record struct TimingLimit(
    string Name, long? MinUs, long? NomUs, long? MaxUs, Editions Editions, Editions Confirmed, string Clause, string Measured);
