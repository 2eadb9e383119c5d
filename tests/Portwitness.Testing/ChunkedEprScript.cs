namespace Portwitness.Testing;

/// <summary>A charger of 140 W that goes to EPR mode in chunks, as shared/vectors/frames.json has it.</summary>
public static class ChunkedEprScript
{
    public const string Text =
        """
        cable: EPR
        source: [5V 3A unconstrained epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]
        steps:
          - attach
          - advertise
          - contract 4 at 5A epr
          - get-epr-source-cap
          - enter-epr at 140W
          - contract 8 at 5A
        """;
}
