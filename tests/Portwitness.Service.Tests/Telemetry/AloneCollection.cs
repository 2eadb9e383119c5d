namespace Portwitness.Service.Tests.Telemetry;

/// <summary>Instruments are listened to by name in the whole process: while these tests run, no other may count.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class AloneCollection
{
    public const string Name = "alone";
}
